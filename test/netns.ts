import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { hasProgram, type Ran, runProgram } from './flow/clients.ts';

/**
 * Hosts of the test's own on this machine: network namespaces joined by a cable (veth). Takes root's rights; a test
 * that has none is skipped by name (decision 0008, testing 26: no network emulation module; loss by nft, rate by tbf, delay and cuts by
 * a relay of ours).
 */
export interface Host {
  readonly name: string;
  readonly address: string;
  /** Runs a program on that host to its end. */
  run(command: string, args: readonly string[], options?: Parameters<typeof runProgram>[2]): Promise<Ran>;
  /** Starts a program on that host; ended with the host at the latest. */
  start(command: string, args: readonly string[]): ChildProcess;
}

/** Networks of one test process have names of their own. */
let networksMade = 0;

export async function canMakeHosts(): Promise<boolean> {
  if (process.platform !== 'linux' || process.getuid?.() !== 0) return false;
  if (!hasProgram('ip') || !hasProgram('nft') || !hasProgram('tc')) return false;
  const probe = `setside-probe-${process.pid}`;
  if ((await runProgram('ip', ['netns', 'add', probe])).code !== 0) return false;
  await runProgram('ip', ['netns', 'del', probe]);
  return true;
}

/** Hosts on one cable each to a switch in a namespace of its own; `close` takes everything away again. */
export class Network {
  readonly #id: string;
  readonly #switch: string;
  readonly #names: string[] = [];
  /** By host: its end at the switch. */
  readonly #sockets = new Map<string, string>();
  readonly #children: ChildProcess[] = [];
  #count = 0;

  private constructor(id: string) {
    this.#id = id;
    this.#switch = `${id}-sw`;
  }

  static async make(): Promise<Network> {
    const network = new Network(`s${process.pid % 100_000}${'abcdefghij'.charAt(networksMade++ % 10)}`);
    await network.#must('ip', ['netns', 'add', network.#switch]);
    network.#names.push(network.#switch);
    await network.#inSwitch(['ip', 'link', 'add', 'br0', 'type', 'bridge']);
    await network.#inSwitch(['ip', 'link', 'set', 'br0', 'up']);
    return network;
  }

  /** Addresses of RFC 1918, 24 bits of network; without one the host has a cable and nothing else. */
  async addHost(name: string, address?: string): Promise<Host> {
    const host = `${this.#id}-${name}`;
    await this.#must('ip', ['netns', 'add', host]);
    this.#names.push(host);
    await this.#must('ip', ['-n', host, 'link', 'set', 'lo', 'up']);
    const inside = ['netns', 'exec', host];
    const made: Host = {
      name: host,
      address: address ?? '',
      run: (command, args, options) => runProgram('ip', [...inside, command, ...args], options),
      start: (command, args) => {
        const child = spawn('ip', [...inside, command, ...args], { stdio: ['pipe', 'pipe', 'pipe'] });
        this.#children.push(child);
        return child;
      },
    };
    await this.plug(made, 'eth0', address);
    return made;
  }

  /** A cable from this network into a host, which may be another network's. */
  async plug(host: Host, as: string, address?: string): Promise<void> {
    const [here, there] = [`${this.#id}h${this.#count}`, `${this.#id}s${this.#count}`];
    this.#count += 1;
    this.#sockets.set(host.name, there);
    await this.#must('ip', ['link', 'add', here, 'type', 'veth', 'peer', 'name', there]);
    await this.#must('ip', ['link', 'set', there, 'netns', this.#switch]);
    await this.#must('ip', ['link', 'set', here, 'netns', host.name]);
    await this.#inSwitch(['ip', 'link', 'set', there, 'master', 'br0', 'up']);
    await this.#must('ip', ['-n', host.name, 'link', 'set', here, 'name', as]);
    if (address !== undefined) {
      await this.#must('ip', ['-n', host.name, 'address', 'add', `${address}/24`, 'dev', as]);
    }
    await this.#must('ip', ['-n', host.name, 'link', 'set', as, 'up']);
  }

  /**
   * Loses so many of a hundred packets between the hosts, as a bad radio does; 0: none any more. What a host drops on its own
   * way out its TCP hears of at once, and sends again before anybody misses it.
   */
  lose(percent: number): Promise<void> {
    return this.#between('weak', percent === 0 ? '' : `numgen random mod 100 < ${percent} counter drop`);
  }

  /** How many packets {@link lose} has lost so far. */
  async lost(): Promise<number> {
    const list = ['netns', 'exec', this.#switch, 'nft', 'list', 'table', 'bridge', 'weak'];
    return Number(/counter packets (\d+)/.exec((await runProgram('ip', list)).stdout)?.[1]);
  }

  /** Hosts reach that one and not each other, as in a network for guests; null: they all meet again. */
  keepApart(but: Host | null): Promise<void> {
    const open = `"${this.#sockets.get(but?.name ?? '')}"`;
    return this.#between('guests', but === null ? '' : `iifname != ${open} oifname != ${open} drop`);
  }

  /** A rule of that name for what goes from host to host; none any more where it is empty. */
  async #between(name: string, rule: string): Promise<void> {
    const nft = (args: readonly string[], input = ''): ReturnType<typeof runProgram> =>
      runProgram('ip', ['netns', 'exec', this.#switch, 'nft', ...args], { input });
    await nft(['delete', 'table', 'bridge', name]);
    if (rule === '') return;
    const run = await nft(
      ['-f', '-'],
      `table bridge ${name} { chain c { type filter hook forward priority 0; ${rule}; }; }\n`,
    );
    if (run.code !== 0) throw new Error(run.stderr);
  }

  async close(): Promise<void> {
    for (const child of this.#children) {
      if (child.exitCode !== null || child.signalCode !== null) continue;
      const ended = once(child, 'exit');
      child.kill('SIGKILL');
      await ended;
    }
    for (const name of this.#names.reverse()) await runProgram('ip', ['netns', 'del', name]);
  }

  async #inSwitch(words: readonly string[]): Promise<void> {
    await this.#must('ip', ['netns', 'exec', this.#switch, ...words]);
  }

  async #must(command: string, args: readonly string[]): Promise<void> {
    const run = await runProgram(command, args);
    if (run.code !== 0) throw new Error(`${command} ${args.join(' ')}: ${run.stderr}`);
  }
}

/** What the host sends goes out at so many bits a second and no faster. */
export async function slowDown(host: Host, rate: string): Promise<void> {
  const words = [
    'qdisc',
    'replace',
    'dev',
    'eth0',
    'root',
    'tbf',
    'rate',
    rate,
    'burst',
    '16kb',
    'latency',
    '200ms',
  ];
  const run = await host.run('tc', words);
  if (run.code !== 0) throw new Error(run.stderr);
}

/** The first line that a program prints. */
export async function firstLineOf(child: ChildProcess): Promise<string> {
  if (child.stdout === null) throw new Error('no standard output');
  let errors = '';
  child.stderr?.on('data', (chunk: Buffer) => {
    errors += chunk.toString();
  });
  const lines = createInterface({ input: child.stdout });
  return new Promise((resolve, reject) => {
    lines.once('line', resolve);
    child.once('exit', (code) => reject(new Error(`ended with ${code}: ${errors}`)));
  });
}
