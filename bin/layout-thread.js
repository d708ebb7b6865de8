// A thread that searches for layouts beside the first one; TypeScript, run as it stands.
import { workerData } from "node:worker_threads";
import { register } from "tsx/esm/api";

register({ tsconfig: false });
const { runErrands } = await import("../src/plans/layout/thread.ts");
runErrands(workerData);
