import { workerData } from 'node:worker_threads';

/** Entry of a thread: ends its whole process once the station that started it is gone. Started by end-with-station.ts alone. */

const lookMs = 200;

// The station's own process is the parent as long as it lives (getppid(2)); whose parent died is given to another.
setInterval(() => {
  if (process.ppid !== workerData) process.kill(process.pid, 'SIGKILL');
}, lookMs);
