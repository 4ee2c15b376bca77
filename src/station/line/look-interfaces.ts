import { existsSync, readFileSync } from 'node:fs';
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import {
  addressUse,
  type InterfaceFacts,
  interfacesOfIp,
  type LineSystem,
  type LinkFacts,
  macosDetails,
  windowsDetails,
} from '../../line/index.ts';
import { outputOf } from './run-program.ts';

type Served = (address: string) => boolean;

/** The interfaces of this computer with all the system says of them; `served`: whether cameras may come in by an address. */
export async function lookInterfaces(
  system: LineSystem,
  served: Served,
  nowMs: number,
): Promise<readonly InterfaceFacts[]> {
  switch (system) {
    case 'linux': {
      const [addresses, routes] = await Promise.all([
        outputOf('ip', ['-j', '-d', 'address']),
        outputOf('ip', ['-j', 'route']),
      ]);
      return addresses === null
        ? plainly(served)
        : interfacesOfIp(addresses, routes ?? '', linuxLink, served, nowMs);
    }
    case 'macos':
      return Promise.all(plainly(served).map(onMacos));
    case 'windows':
      return onWindows(plainly(served));
    case 'other':
      return plainly(served);
  }
}

/** What Node says: no kinds, leases or gateways. */
function plainly(served: Served): InterfaceFacts[] {
  return Object.entries(networkInterfaces()).map(([name, entries = []]) => ({
    name,
    kind: entries.some(({ internal }) => internal) ? 'loopback' : 'unknown',
    up: true,
    hardware: entries.map(({ mac }) => mac).find((mac) => mac !== '00:00:00:00:00:00') ?? null,
    bitsPerSecond: null,
    gateway: null,
    addresses: entries.map(({ address, family, cidr }) => ({
      address,
      family,
      prefixBits: Number(cidr?.split('/')[1] ?? (family === 'IPv4' ? 32 : 128)),
      given: ['link-local', 'loopback'].includes(addressUse(address)) ? 'self' : 'unknown',
      leaseEndsMs: null,
      served: served(address),
    })),
  }));
}

function linuxLink(name: string): LinkFacts | null {
  const folder = join('/sys/class/net', name);
  if (name === '' || !existsSync(folder)) return null;
  return {
    wireless: existsSync(join(folder, 'wireless')) || existsSync(join(folder, 'phy80211')),
    device: existsSync(join(folder, 'device')),
    bitsPerSecond: speedIn(join(folder, 'speed')),
  };
}

/** Megabits a second, -1 or unreadable where the driver does not know (Linux, sysfs-class-net). */
function speedIn(file: string): number | null {
  try {
    const megabits = Number(readFileSync(file, 'utf8'));
    return megabits > 0 ? megabits * 1e6 : null;
  } catch {
    return null;
  }
}

async function onMacos(each: InterfaceFacts): Promise<InterfaceFacts> {
  const [packet, ports, route] = await Promise.all([
    outputOf('ipconfig', ['getpacket', each.name]),
    outputOf('networksetup', ['-listallhardwareports']),
    outputOf('route', ['-n', 'get', '-ifscope', each.name, 'default']),
  ]);
  return macosDetails(each, { packet: packet ?? '', ports: ports ?? '', route: route ?? '' });
}

async function onWindows(plain: readonly InterfaceFacts[]): Promise<readonly InterfaceFacts[]> {
  const say = (query: string): Promise<string | null> =>
    outputOf('powershell', [
      '-NoProfile',
      '-NonInteractive',
      '-Command',
      `${query} | ConvertTo-Json -Depth 3`,
    ]);
  const [addresses, adapters, routes] = await Promise.all([
    say(
      'Get-NetIPAddress | Select-Object InterfaceAlias,IPAddress,PrefixOrigin,@{n="LifeS";e={[double]$_.ValidLifetime.TotalSeconds}}',
    ),
    say('Get-NetAdapter | Select-Object Name,MediaType,Virtual,@{n="Speed";e={[double]$_.Speed}}'),
    say('Get-NetRoute -DestinationPrefix 0.0.0.0/0 | Select-Object InterfaceAlias,NextHop'),
  ]);
  return windowsDetails(plain, {
    addresses: addresses ?? '',
    adapters: adapters ?? '',
    routes: routes ?? '',
    nowMs: Date.now(),
  });
}
