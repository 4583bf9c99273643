// A worker thread's first module has to be JavaScript: Node 20 doesn't apply `--import tsx` to it.
import { register } from "tsx/esm/api";

register();
await import("./worker.ts");
