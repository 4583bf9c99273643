import { parentPort, workerData } from "node:worker_threads";
import type { RoomStart } from "../../shared/messages";
import { readStart } from "./readStart";

// One thread reads one start, and ends with it.
parentPort?.postMessage(readStart(workerData as RoomStart));
