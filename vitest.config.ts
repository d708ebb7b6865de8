import { defineConfig } from "vitest/config";

/** Has a file system of its own in place of node:fs: nothing that other files have loaded may be left in its worker. */
const APART = "tests/writers/files.test.ts";

export default defineConfig({
  test: {
    // Rasterising pages and reading them back takes its time on two cores; the whole of what is proved takes its own.
    testTimeout: process.env.PROVE === "whole" ? 7_200_000 : 120_000,
    hookTimeout: process.env.PROVE === "whole" ? 7_200_000 : 120_000,
    // Every core: by default one is left for a person at the screen.
    maxWorkers: "100%",
    reporters: process.env.CI ? ["default", ["json", { outputFile: "test-report.json" }]] : ["default"],
    projects: [
      // The files that a worker runs share its modules, and the sets of the examples with them: each is loaded and derived once.
      { extends: true, test: { name: "tests", include: ["tests/**/*.test.ts"], exclude: [APART], isolate: false } },
      { extends: true, test: { name: "apart", include: [APART] } },
    ],
  },
});
