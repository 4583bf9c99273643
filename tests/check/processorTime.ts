/** Milliseconds of processor time that this process has used so far: what else the machine does is not in it. */
export function processorTime(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
