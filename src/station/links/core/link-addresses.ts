import { isLoopback, type OwnAddress } from '../../core/addresses.ts';

export interface LinkAddress {
  readonly url: string;
  readonly encrypted: boolean;
}

/**
 * Where a link leads, the best first: over TLS before in clear, private addresses, IPv6 where there is no IPv4, before the name by multicast DNS
 * (RFC 6762), which not every phone looks up; what leads beside the networks around only where nothing else is. The token stands behind the `#`, which no browser ever sends.
 */
export function linkAddresses(
  own: readonly OwnAddress[],
  localName: string | null,
  port: number,
  token: string,
  hasTls: boolean,
): LinkAddress[] {
  const four = own.filter(
    ({ family, private: isPrivate, address }) => family === 'IPv4' && isPrivate && !isLoopback(address),
  );
  const networked = four.filter(({ address }) => !address.startsWith('169.254.'));
  const near = networked.filter(({ beside }) => !beside);
  const outside = near.length > 0 ? near : networked;
  // Unique local addresses (RFC 4193) where the network has no IPv4; in brackets after RFC 3986 section 3.2.2.
  const six = own.filter(({ family, address }) => family === 'IPv6' && /^f[cd][0-9a-f]{2}:/i.test(address));
  const addresses =
    four.length === 0
      ? six.map(({ address }) => `[${address}]`)
      : (outside.length > 0 ? outside : four).map(({ address }) => address);
  const hosts = [...addresses, ...(localName === null ? [] : [localName])];
  // Of use on this computer alone, but better than nothing to show.
  const shown = hosts.length > 0 ? hosts : ['127.0.0.1'];
  return [...(hasTls ? [true] : []), false].flatMap((encrypted) =>
    shown.map((host) => ({
      url: `${encrypted ? 'https' : 'http'}://${host}:${port}/in#${token}`,
      encrypted,
    })),
  );
}
