import { OperatorError } from "./database";

/** What whoever runs the server can choose, by environment variables. */
export type Settings = {
  /** `PORT`, 3000 where it isn't set. */
  readonly port: number;
  /** `HOST`; where it isn't set only this machine can reach the server. `HOST=0.0.0.0` opens it to the network. */
  readonly host: string;
  /** `ADDEND_DATA`, the folder of the database; `.data` where it isn't set. */
  readonly dataFolder: string;
};

/** Throws an {@link OperatorError} that names the variable at fault. */
export function readSettings(env: Readonly<Record<string, string | undefined>>): Settings {
  return { port: readPort(env.PORT), host: env.HOST || "127.0.0.1", dataFolder: env.ADDEND_DATA || ".data" };
}

function readPort(text: string | undefined): number {
  if (!text) return 3000;
  const port = Number(text);
  if (/^\d{1,5}$/.test(text) && port <= 65_535) return port;
  throw new OperatorError(`PORT is to be a number from 0 to 65535, not "${text}".`);
}
