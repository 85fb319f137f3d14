"use strict";
// A file of its own: the page's content security policy lets no inline script run.
SwaggerUIBundle({
  url: "/openapi.json",
  dom_id: "#reference",
  deepLinking: true,
  displayOperationId: true,
  docExpansion: "list",
  tryItOutEnabled: true,
  // The default sends the document to a validator in the internet.
  validatorUrl: null,
  presets: [SwaggerUIBundle.presets.apis],
  layout: "BaseLayout",
});
