// What has to be there before anything of the project can run. Plain Node, since nothing may be installed yet.
import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

export const ROOT = dirname(dirname(fileURLToPath(import.meta.url)));

/** Says why it goes no further, and ends the process. */
export function fail(message) {
  console.error(message);
  process.exit(1);
}

/** Runs a command to its end with its output shown; fails where it fails. */
export function run(what, command, args) {
  console.error(`${what} …`);
  const { status } = spawnSync(command, args, { cwd: ROOT, stdio: ["ignore", "inherit", "inherit"] });
  if (status !== 0) fail(`${what} failed; the lines above say why.`);
}

/** Installs the packages of the lockfile unless they are there. */
export function installPackages() {
  if (!isInstalled()) run("Installing packages", process.platform === "win32" ? "npm.cmd" : "npm", ["ci"]);
}

/** Whether node_modules holds the versions of the lockfile, by the record that npm keeps there. */
function isInstalled() {
  const record = join(ROOT, "node_modules/.package-lock.json");
  if (!existsSync(record)) return false;
  const { packages: wanted } = JSON.parse(readFileSync(join(ROOT, "package-lock.json"), "utf8"));
  const { packages: found } = JSON.parse(readFileSync(record, "utf8"));
  return Object.entries(wanted).every(
    ([path, { version, optional }]) => path === "" || optional || found[path]?.version === version,
  );
}
