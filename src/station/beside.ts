import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Hardware types of tunnels, after Linux, `if_arp.h` (from memory): PPP, none (as WireGuard and TUN have it), IPIP, SIT, GRE. */
const tunnelTypes: ReadonlySet<string> = new Set(['512', '65534', '768', '776', '778']);

/**
 * Whether an interface leads beside the networks around this computer: to guests of its own by a bridge, or away by a tunnel.
 * A bridge that leads to a router carries its own network. Only Linux tells; elsewhere none does. Cheap enough to ask each time.
 */
export function leadsBeside(name: string, root = '/'): boolean {
  const folder = join(root, 'sys/class/net', name);
  if (tunnelTypes.has(textOf(join(folder, 'type')).trim())) return true;
  return existsSync(join(folder, 'bridge')) && !leadsToRouter(name, root);
}

/** The routes of IPv4, as proc(5) has them: interface, destination, gateway in hexadecimal; the default one goes to 0. */
function leadsToRouter(name: string, root: string): boolean {
  return textOf(join(root, 'proc/net/route'))
    .split('\n')
    .map((line) => line.split(/\s+/))
    .some(([by, to, gateway]) => by === name && to === '00000000' && gateway !== '00000000');
}

function textOf(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return '';
  }
}
