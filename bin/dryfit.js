#!/usr/bin/env node
// The program is TypeScript, run as it stands; the tsconfig of the folder one happens to be in has no say.
import { register } from "tsx/esm/api";

register({ tsconfig: false });
const { main, terminal } = await import("../src/cli.ts");
process.exitCode = await main(process.argv.slice(2), terminal());
