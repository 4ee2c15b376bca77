import { readFile } from 'node:fs/promises';

/** Linux: clock ticks a second in /proc (sysconf _SC_CLK_TCK, 100 on every common system). */
const ticksPerS = 100;

/** utime and stime, fields 14 and 15 of /proc/PID/stat (proc(5)); the name in field 2 may hold blanks. */
export async function processorS(pid: number): Promise<number> {
  const text = await readFile(`/proc/${pid}/stat`, 'utf8');
  const fields = text.slice(text.lastIndexOf(')') + 2).split(' ');
  return (Number(fields[11]) + Number(fields[12])) / ticksPerS;
}

export async function residentMB(pid: number): Promise<number> {
  const text = await readFile(`/proc/${pid}/status`, 'utf8');
  return Number(/VmRSS:\s+(\d+) kB/.exec(text)?.[1]) / 1000;
}
