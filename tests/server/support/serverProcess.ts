import { type ChildProcess, spawn } from "node:child_process";
import { fileURLToPath } from "node:url";

const ENTRY = fileURLToPath(new URL("./serverEntry.ts", import.meta.url));

export type ServerProcess = {
  readonly port: number;
  /** Address of the rooms, as a stock client takes it. */
  readonly url: string;
  /** Ends the process with the signal and resolves with its exit code, null where the signal ended it. */
  readonly end: (signal: NodeJS.Signals) => Promise<number | null>;
};

/** The real server as a process of its own, on the database in the folder; it solves nothing unless it is asked to. */
export function startServerProcess(folder: string, { solves = false } = {}): Promise<ServerProcess> {
  return startWaitingServer({ solves }).serve(folder);
}

function firstLine(child: ChildProcess): Promise<string> {
  return new Promise((resolve) => {
    let text = "";
    child.stdout?.on("data", (bytes: Buffer) => {
      text += bytes.toString();
      if (text.includes("\n")) resolve(text.slice(0, text.indexOf("\n")));
    });
  });
}

/** A server that is loaded and waits to be given a folder. */
export type WaitingServer = {
  readonly serve: (folder: string) => Promise<ServerProcess>;
  readonly end: () => void;
};

/** Loads a server into a process of its own, which serves nothing yet: a test that kills many need not wait for each. */
export function startWaitingServer({ solves = false } = {}): WaitingServer {
  const child = spawn(process.execPath, ["--import", "tsx", ENTRY, ...(solves ? ["solves"] : [])], {
    stdio: ["pipe", "pipe", "inherit"],
  });
  const exited = new Promise<number | null>((resolve) => child.once("exit", (code) => resolve(code)));
  return {
    serve: async (folder) => {
      const told = firstLine(child);
      child.stdin?.write(`${folder}\n`);
      const ended = exited.then((code) => Promise.reject(new Error(`exit ${code}`)));
      const port = Number(await Promise.race([told, ended]));
      const end = (signal: NodeJS.Signals) => {
        child.kill(signal);
        return exited;
      };
      return { port, url: `ws://127.0.0.1:${port}/sync`, end };
    },
    end: () => child.kill("SIGKILL"),
  };
}
