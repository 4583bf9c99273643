import { writeFileSync } from "node:fs";
import { boardFrames } from "./board";
import { boardProblemTimes } from "./boardProblem";
import { builtPagesProblem } from "./builtPages";
import { checkedTries } from "./checkedTries";
import { checkTimes } from "./checks";
import { exactSolve } from "./exactSolve";
import { beyondTheLimit, ladderTimes } from "./ladders";
import { relayTimes } from "./relay";
import { replayTimes } from "./replay";
import { machine } from "./table";
import { workingTimes } from "./workings";

// `npm run bench`: prints its tables and keeps them in RESULTS.md beside this file.

const RESULTS = new URL("./RESULTS.md", import.meta.url);

const problem = builtPagesProblem(process.cwd());
if (problem !== null) {
  console.error(problem);
  process.exit(1);
}

const report = [
  "# Benchmark",
  `Written by \`npm run bench\`. Medians; within a table the runs are taken in turn, so that ratios mean more than times. Taken on ${machine()}.`,
  exactSolve(),
  boardProblemTimes(),
  workingTimes(),
  checkTimes(),
  await checkedTries(),
  ladderTimes(),
  beyondTheLimit(),
  await relayTimes(),
  await replayTimes(),
  await boardFrames(),
].join("\n\n");

process.stdout.write(`${report}\n`);
writeFileSync(RESULTS, `${report}\n`);
