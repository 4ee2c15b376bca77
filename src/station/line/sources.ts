import { X509Certificate } from 'node:crypto';
import type { Authority } from '../../authority/index.ts';
import type { Finding } from '../../facts/index.ts';
import { type DoorFacts, isInNetwork, type LineFacts } from '../../line/index.ts';
import { isPrivateAddress } from '../core/addresses.ts';
import { ownAddresses } from '../own-addresses.ts';

/** Troubles that name the port a door should have had. */
const aboutPorts: ReadonlySet<string> = new Set([
  'line.port-taken',
  'line.port-forbidden',
  'line.port-in-use',
]);

/** A door as the line check sees it: of several ports that were tried, the first is the one people look for. */
export function doorFacts(
  name: DoorFacts['name'],
  { port, troubles }: { readonly port: number | null; readonly troubles: readonly Finding[] },
): Omit<DoorFacts, 'holder'> {
  const [trouble = null] = troubles;
  const wanted = trouble !== null && aboutPorts.has(trouble.code) ? Number(trouble.args.port) : null;
  return { name, port, wanted, trouble };
}

/** Whether cameras may come in by an address of this computer. */
export function isServed(address: string, bind: string | null): boolean {
  if (bind === null) return isPrivateAddress(address);
  if (bind === '::') return true;
  return bind === '0.0.0.0' ? address.includes('.') : address === bind;
}

/** Since when and until when cameras may take what the station shows them. */
export function validityOf(authority: Authority | null): LineFacts['certificate'] {
  if (authority === null) return null;
  const { validFrom, validTo } = new X509Certificate(authority.credentials.chain);
  return { notBeforeMs: Date.parse(validFrom), notAfterMs: Date.parse(validTo) };
}

/** Networks of RFC 1918, where a name is told: what a computer gave itself, or shares with others, is nobody's home. */
const namedNetworks = ['10.0.0.0/8', '172.16.0.0/12', '192.168.0.0/16'];

/** The addresses by which cameras are served and a name is told. */
export function namedAddresses(bind: string | null): readonly string[] {
  return ownAddresses()
    .map(({ address }) => address)
    .filter((address) => isServed(address, bind) && namedNetworks.some((each) => isInNetwork(address, each)));
}
