"""What capacity, safety, labels and the codes say of a solved site: findings, no arithmetic of currents."""
