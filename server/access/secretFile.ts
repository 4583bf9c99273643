import { randomBytes } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { OperatorError } from "../database";

const BYTES = 32;

/**
 * The key that cookies are signed with, from the file `secret` of the data folder, which is made at the first start.
 * Whoever takes the file away makes all browsers strangers. Throws an {@link OperatorError} where it can't be used.
 */
export function takeSecret(folder: string): Uint8Array {
  const path = join(folder, "secret");
  try {
    // With "wx" an existing file stays as it is.
    writeFileSync(path, `${randomBytes(BYTES).toString("base64url")}\n`, { mode: 0o600, flag: "wx" });
  } catch (error) {
    if (codeOf(error) !== "EEXIST") throw new OperatorError(`${path} can't be written (${codeOf(error)}).`);
  }
  const secret = Buffer.from(readFileSync(path, "utf8").trim(), "base64url");
  if (secret.length === BYTES) return secret;
  throw new OperatorError(
    `${path} holds no secret of ours. Restore it, or delete it: then everybody has to join again.`,
  );
}

function codeOf(error: unknown): string {
  return error instanceof Error && "code" in error ? String(error.code) : String(error);
}
