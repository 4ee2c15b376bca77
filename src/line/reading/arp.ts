import type { NeighbourFacts } from '../facts.ts';

/**
 * `arp -a` of macOS (`? (192.168.7.1) at 0:1b:2c:3:4:5 on en0 ifscope [ethernet]`) and of Windows
 * (`  192.168.7.1   00-1b-2c-03-04-05   dynamic`, below `Interface: 192.168.7.2 --- 0x5`).
 */
export function neighboursOfArp(text: string): NeighbourFacts[] {
  let windowsInterface = '';
  return text.split(/\r?\n/).flatMap((line) => {
    windowsInterface = /^Interface: (\S+)/.exec(line)?.[1] ?? windowsInterface;
    const mac = /\((\d+(?:\.\d+){3})\) at ([0-9a-f:]+) on (\S+)/i.exec(line);
    const win = /^\s+(\d+(?:\.\d+){3})\s+([0-9a-f]{2}(?:-[0-9a-f]{2}){5})\s/i.exec(line);
    const found = mac ?? win;
    if (found === null) return [];
    const hardware = (found[2] ?? '')
      .toLowerCase()
      .split(/[:-]/)
      .map((part) => part.padStart(2, '0'))
      .join(':');
    return [{ address: found[1] ?? '', hardware, interface: mac?.[3] ?? windowsInterface }];
  });
}

/** `/proc/net/arp` of Linux (proc(5)): who answered. */
export function neighboursOfProc(text: string): NeighbourFacts[] {
  return entriesOfProc(text).filter(({ hardware }) => hardware !== nobody);
}

/** Of the same file: addresses that were asked for, and nobody has answered so far. */
export function unansweredOfProc(text: string): string[] {
  return entriesOfProc(text).flatMap(({ address, hardware }) => (hardware === nobody ? [address] : []));
}

const nobody = '00:00:00:00:00:00';

/** Address, type, flags, hardware address, mask, device. */
function entriesOfProc(text: string): NeighbourFacts[] {
  return text.split('\n').flatMap((line) => {
    const found = /^(\d+(?:\.\d+){3})\s+0x\S+\s+0x\S+\s+([0-9a-f:]{17})\s+\S+\s+(\S+)$/i.exec(line.trim());
    const [, address = '', hardware = '', dev = ''] = found ?? [];
    return found === null ? [] : [{ address, hardware: hardware.toLowerCase(), interface: dev }];
  });
}
