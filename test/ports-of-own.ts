/** Ports for each worker that runs test files beside others. */
const portsEach = 1000;
/** Above what systems use themselves, below what Linux gives to callers by itself (32768 and up). */
const portsFrom = 20_000;
const workersMax = 12;

/**
 * A range of ports that no test file beside this one uses, and that no outgoing connection of any program is given by
 * the system. For passive data ports; what can listen on any free port should ask for 0.
 */
export function portsOfOwn(count = portsEach): { readonly from: number; readonly to: number } {
  const worker = Number(process.env.VITEST_POOL_ID ?? 0) % workersMax;
  const from = portsFrom + worker * portsEach;
  return { from, to: from + count - 1 };
}
