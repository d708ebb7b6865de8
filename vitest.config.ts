import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    // Rasterising pages and reading them back takes its time on two cores.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    reporters: process.env.CI ? ["default", ["json", { outputFile: "test-report.json" }]] : ["default"],
  },
});
