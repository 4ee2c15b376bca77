/** Ports as people write them: `21, 2222, 50000-50099`. `between` stands in a range, `beside` between two. */
export function portsText(ports: readonly number[], between = '-', beside = ', '): string {
  return portRanges(ports)
    .map(({ from, to }) => (from === to ? String(from) : `${from}${between}${to}`))
    .join(beside);
}

/** Ranges without gaps, in order. */
export function portRanges(
  ports: readonly number[],
): readonly { readonly from: number; readonly to: number }[] {
  const ranges: { from: number; to: number }[] = [];
  for (const port of [...new Set(ports)].sort((one, other) => one - other)) {
    const last = ranges.at(-1);
    if (last !== undefined && last.to === port - 1) last.to = port;
    else ranges.push({ from: port, to: port });
  }
  return ranges;
}
