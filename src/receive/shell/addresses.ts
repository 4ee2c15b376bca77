/** An address as people write it: IPv4 in dotted form also where a dual-stack socket shows `::ffff:192.0.2.1`. */
export function plainAddress(address: string | undefined): string {
  if (address === undefined) return '';
  const mapped = /^::ffff:(\d+\.\d+\.\d+\.\d+)$/i.exec(address);
  return mapped?.[1] ?? address;
}
