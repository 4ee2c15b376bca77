import { exitCodes } from './exit-codes.ts';

/** How long a process may live on after all it had was closed. What closes politely, a socket for one, has let go by then. */
export const heldMsMax = 5_000;

/** What this asks of the process it is in. */
export interface HeldProcess {
  /** What keeps it alive, by Node's names, each as often as there is one. */
  getActiveResourcesInfo(): string[];
  exit(code: number): void;
}

/**
 * To be called when everything is closed. A process that nothing holds ends by itself, and this does not hold it; one that still
 * lives after {@link heldMsMax} says by what it is held, and ends all the same: nothing is left to be lost.
 */
export function endThoughHeld(
  say: (line: string) => void,
  held: HeldProcess = process,
  later: (act: () => void, ms: number) => NodeJS.Timeout = setTimeout,
): void {
  later(() => {
    say(
      `Everything is closed, but the process was still held after ${heldMsMax / 1000} s, by ${holders(held.getActiveResourcesInfo())}. It ends now; nothing is lost. This is a defect of Setside: please report this line.\n`,
    );
    held.exit(exitCodes.done);
  }, heldMsMax).unref();
}

/** `["Timeout", "TCPSocketWrap", "Timeout"]` gives `2 Timeout, 1 TCPSocketWrap`. */
function holders(names: readonly string[]): string {
  const counts = new Map<string, number>();
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
  return counts.size === 0
    ? 'something without a name'
    : [...counts].map(([name, count]) => `${count} ${name}`).join(', ');
}
