import createClient from "openapi-fetch";
import type { components, paths } from "./ampwright.js";

const client = createClient<paths>({ baseUrl: process.argv[2] });
const source: components["schemas"]["Vehicle"] = {
  kind: "vehicle",
  voltage: "120 V",
  receptacles: [{ id: "R1", marked: "20 A" }],
};
const { data, error, response } = await client.POST("/v1/load-checks", {
  body: { source, tools: [{ id: "saw", load_class: "circular_saw", supply_options: [{ voltage: "120 V", current: "15 A" }] }] },
});
if (error) throw new Error(JSON.stringify(error));
if (typeof data === "string") throw new Error("text is sent only where it is asked for");
const first: string | undefined = data.crew_card[0]?.text;
const verdict: "pass" | "marginal" | "unknown" | "fail" = data.verdict.overall;
console.log(response.status, verdict, first);

const wrong = await client.POST("/v1/load-checks", { body: { source: { ...source, voltage: "13 apples" }, tools: [] } });
console.log(wrong.response.status, wrong.error?.errors?.[0]?.pointer);
