import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/workbench/**", "node_modules/**"],
    // Two cores: more workers than that only make the timings noisy.
    maxWorkers: 2,
    testTimeout: 20_000,
  },
});
