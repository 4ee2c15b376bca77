import { readFile } from 'node:fs/promises';

/** Counters of Linux's TCP, of the whole computer: all that came, and what waited for an earlier packet that was lost. */
interface Counts {
  readonly received: number;
  readonly outOfOrder: number;
}

/** Enough packets to tell a share of one in a hundred. */
const packetsWanted = 1000;
const samplesMax = 120;

/** What share of the packets that came of late had lost one before them; a word about the line that no camera gives. */
export class PacketCounts {
  readonly #samples: Counts[] = [];

  async sample(): Promise<void> {
    const [netstat, snmp] = await Promise.all(
      ['/proc/net/netstat', '/proc/net/snmp'].map((file) => readFile(file, 'utf8').catch(() => '')),
    );
    const received = counter(snmp ?? '', 'Tcp', 'InSegs');
    const outOfOrder = counter(netstat ?? '', 'TcpExt', 'TCPOFOQueue');
    if (received === null || outOfOrder === null) return;
    this.#samples.push({ received, outOfOrder });
    // The oldest goes once the rest still says enough.
    const second = this.#samples[1];
    if (second !== undefined && received - second.received >= packetsWanted) this.#samples.shift();
    if (this.#samples.length > samplesMax) this.#samples.splice(1, 1);
  }

  /** Since the oldest sample that is still held; null where the system does not count. */
  lately(): Counts | null {
    const [first, last] = [this.#samples[0], this.#samples.at(-1)];
    if (first === undefined || last === undefined) return null;
    return {
      received: last.received - first.received,
      outOfOrder: last.outOfOrder - first.outOfOrder,
    };
  }
}

/** Each protocol has two lines: names, then figures in their order. */
function counter(text: string, protocol: string, name: string): number | null {
  const [names = [], figures = []] = text
    .split('\n')
    .filter((line) => line.startsWith(`${protocol}: `))
    .map((line) => line.split(' '));
  const figure = Number(figures[names.indexOf(name)] ?? Number.NaN);
  return Number.isNaN(figure) ? null : figure;
}
