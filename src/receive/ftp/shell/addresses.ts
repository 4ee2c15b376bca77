/** An address as people write it: IPv4 in dotted form also where a dual-stack socket shows `::ffff:192.0.2.1`. */
export function plainAddress(address: string | undefined): string {
  if (address === undefined) return '';
  const mapped = /^::ffff:(\d+\.\d+\.\d+\.\d+)$/i.exec(address);
  return mapped?.[1] ?? address;
}

/**
 * The address a data listener binds so that only the client's own way in is open. A link-local IPv6 address cannot
 * be bound without its zone, which the socket does not tell; there the listener takes any.
 */
export function listenAddressFor(localAddress: string): string {
  return /^fe[89ab]/i.test(localAddress) ? '::' : localAddress;
}
