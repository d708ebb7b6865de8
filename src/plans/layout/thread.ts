/**
 * A second thread that carries rounds of a search beside the first one. It is only told what to run and asked for the end, and the same
 * errand has the same end wherever it is run: so a layout never depends on how many threads there were, or on how busy they were.
 */
import { MessageChannel, type MessagePort, receiveMessageOnPort, Worker } from "node:worker_threads";
import { alone, type Carrier, type End, type Errand, runErrand } from "./rounds.ts";

/** What both sides watch: whether the thread waits for errands; how many ends lie ready. */
const [READY, ENDS] = [0, 1];

export type Thread = {
  carry: Carrier;
  /** Whether it is ready for errands, waiting for that so many milliseconds. */
  isReady: (patience: number) => boolean;
  /** How many errands it has run to their end. */
  answers: () => number;
  close: () => void;
};

/** Longer than any round takes; then the round is run here after all. */
const PATIENCE = 300_000; // milliseconds

export type ThreadData = { port: MessagePort; watched: Int32Array };

/** The end comes with the number of its errand, so that a late one is not taken for another. */
type Told = { number: number; errand: Errand };
type Answer = { number: number; end: End };

export function openThread(): Thread {
  const watched = new Int32Array(new SharedArrayBuffer(8));
  const { port1: port, port2 } = new MessageChannel();
  const workerData: ThreadData = { port: port2, watched };
  const worker = new Worker(new URL("../../../bin/layout-thread.js", import.meta.url), {
    workerData,
    transferList: [port2],
    execArgv: [],
  });
  // Neither keeps the program from ending. What goes wrong over there is found again when the errand is run here.
  worker.unref();
  port.unref();
  worker.on("error", () => undefined);
  let last = 0;

  /** Waits for the end of an errand; null when the thread has not answered in time. */
  const endOf = (number: number): End | null => {
    const until = performance.now() + PATIENCE;
    for (let left = PATIENCE; left > 0; left = until - performance.now()) {
      const ends = Atomics.load(watched, ENDS);
      for (let got = receiveMessageOnPort(port); got !== undefined; got = receiveMessageOnPort(port)) {
        const { number: own, end } = got.message as Answer;
        if (own === number) return end;
      }
      Atomics.wait(watched, ENDS, ends, left);
    }
    return null;
  };

  const isReady = (patience: number): boolean => {
    Atomics.wait(watched, READY, 0, patience);
    return Atomics.load(watched, READY) === 1;
  };

  return {
    isReady,
    answers: () => Atomics.load(watched, ENDS),
    carry: (errand) => {
      if (!isReady(0)) return alone(errand);
      const number = ++last;
      const told: Told = { number, errand };
      port.postMessage(told);
      return () => endOf(number) ?? runErrand(errand);
    },
    close: () => void worker.terminate(),
  };
}

/** The other side. */
export function runErrands({ port, watched }: ThreadData): void {
  port.on("message", ({ number, errand }: Told) => {
    const answer: Answer = { number, end: runErrand(errand) };
    port.postMessage(answer);
    Atomics.add(watched, ENDS, 1);
    Atomics.notify(watched, ENDS);
  });
  Atomics.store(watched, READY, 1);
  Atomics.notify(watched, READY);
}
