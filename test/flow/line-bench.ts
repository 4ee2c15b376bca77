import type { ChildProcess } from 'node:child_process';
import { createHash, randomBytes } from 'node:crypto';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect } from 'vitest';
import {
  type LineCheck,
  type LineFinding,
  lineCheck,
  type ReadyLine,
  readyLine,
  station as stationShape,
} from '../../src/contract/index.ts';
import { firstLineOf, type Host, Network } from '../netns.ts';
import type { Ran } from './clients.ts';
import { newHome, removeHome } from './running-station.ts';

const binary = join(import.meta.dirname, '../../bin/setside.mjs');

/** A station and cameras on hosts of their own, with whatever lies between them. */
export class LineBench {
  readonly home: string;
  readonly #files: string;
  readonly #networks: Network[] = [];
  #sent = 0;
  #stationHost: Host | null = null;
  #ready: ReadyLine | null = null;
  #station: ReturnType<Host['start']> | null = null;

  private constructor(home: string, files: string) {
    this.home = home;
    this.#files = files;
  }

  static async make(): Promise<LineBench> {
    return new LineBench(await newHome(), await mkdtemp(join(tmpdir(), 'setside-line-')));
  }

  async network(): Promise<Network> {
    const network = await Network.make();
    this.#networks.push(network);
    return network;
  }

  /** The station as a person starts it, on that host: FTP at 21 if the host lets it, six data ports. */
  async startStation(host: Host, more: readonly string[] = []): Promise<void> {
    const args = ['--home', this.home, '--web', '0', '--passive', '50000-50005', '--json', ...more];
    this.#stationHost = host;
    this.#station = host.start(process.execPath, [binary, 'station', ...args]);
    this.#ready = readyLine.parse(JSON.parse(await firstLineOf(this.#station)));
  }

  async stopStation(): Promise<void> {
    const station = this.#station;
    if (station === null || station.exitCode !== null) return;
    const ended = new Promise((resolve) => station.once('exit', resolve));
    station.kill('SIGTERM');
    await ended;
  }

  get ready(): ReadyLine {
    if (this.#ready === null) throw new Error('no station was started');
    return this.#ready;
  }

  get station(): Host {
    if (this.#stationHost === null) throw new Error('no station was started');
    return this.#stationHost;
  }

  get login(): string {
    const [camera] = this.ready.cameras;
    return `${camera?.user}:${camera?.password}`;
  }

  /** `setside line` on the station's host. */
  line(more: readonly string[] = [], input = ''): Promise<Ran> {
    return this.command(['line', ...more], input);
  }

  /** Any command of `setside` there. */
  command(words: readonly string[], input = ''): Promise<Ran> {
    return this.station.run(process.execPath, [binary, ...words, '--home', this.home], { input });
  }

  /** What the command asks, without starting it anew for each look. */
  async check(): Promise<LineCheck> {
    const run = await this.station.run('curl', ['-sS', `${this.ready.web}/api/v1/line`]);
    return lineCheck.parse(JSON.parse(run.stdout));
  }

  /** The finding, once it is there: what a camera did is told behind it. */
  async finds(code: string, withinMs = 40_000): Promise<LineFinding> {
    let found: LineFinding | undefined;
    await expect
      .poll(
        async () => {
          const { findings } = await this.check();
          found = findings.find((finding) => finding.code === code);
          return findings.map((finding) => finding.code);
        },
        { timeout: withinMs, interval: 300 },
      )
      .toContain(code);
    if (found === undefined) throw new Error('found and lost');
    return found;
  }

  /** It is found no more. */
  async settles(code: string): Promise<void> {
    await expect
      .poll(async () => (await this.check()).findings.map((finding) => finding.code), {
        timeout: 40_000,
        interval: 300,
      })
      .not.toContain(code);
  }

  /** What a person does with the lines of a cure; root needs no sudo. */
  async runs(commands: readonly string[]): Promise<void> {
    expect(commands.length).toBeGreaterThan(0);
    for (const command of commands) {
      const run = await this.station.run('sh', ['-c', command.replace(/^sudo /, '')]);
      expect(run.code, run.stderr).toBe(0);
    }
  }

  /** A new file by curl, from a camera; a line that is shut shows within some seconds. */
  async send(
    camera: Host,
    to: string,
    {
      port = 21,
      login = this.login,
      bytes = 200_000,
      folder = '',
      more = [],
      through = [],
    }: {
      port?: number;
      login?: string;
      bytes?: number;
      /** With a stroke behind it. */
      folder?: string;
      more?: readonly string[];
      /** A program with its words that runs curl. */
      through?: readonly string[];
    } = {},
  ): Promise<Ran & { sha256: string }> {
    const content = randomBytes(bytes);
    const file = join(this.#files, `F${String(this.#sent++).padStart(4, '0')}.BIN`);
    await writeFile(file, content);
    const words = [
      ...through,
      ...['curl', '-sS', '-v', '-T', file, '--user', login, '--connect-timeout', '6', '--max-time', '60'],
      ...[...more, `ftp://${to}:${port}/${folder}`],
    ];
    const [command = '', ...args] = words;
    const run = await camera.run(command, args, { timeoutMs: 90_000 });
    return { ...run, sha256: createHash('sha256').update(content).digest('hex') };
  }

  /** It arrives: curl was told 226, which comes only once the file is kept. */
  async arrives(...asked: Parameters<LineBench['send']>): Promise<void> {
    const run = await this.send(...asked);
    expect(run.code, run.stderr).toBe(0);
  }

  /** An upload that takes its time, once its first bytes are here; whoever began it ends it. */
  async begins(camera: Host, to: string, sizeBytes: number, bytesPerSecond: number): Promise<ChildProcess> {
    const file = join(this.#files, `S${String(this.#sent++).padStart(4, '0')}.BIN`);
    await writeFile(file, randomBytes(sizeBytes));
    const sending = ['-T', file, '--user', this.login, '--limit-rate', String(bytesPerSecond)];
    const child = camera.start('curl', ['-sS', ...sending, `ftp://${to}/`]);
    await expect
      .poll(
        async () => {
          const run = await this.station.run('curl', ['-sS', `${this.ready.web}/api/v1/station`]);
          return stationShape.parse(JSON.parse(run.stdout)).incoming.map(({ why }) => why);
        },
        { timeout: 20_000, interval: 200 },
      )
      .toContain('arriving');
    return child;
  }

  async fails(...asked: Parameters<LineBench['send']>): Promise<void> {
    const run = await this.send(...asked);
    expect(run.code, run.stderr).not.toBe(0);
  }

  async close(): Promise<void> {
    for (const network of this.#networks.reverse()) await network.close();
    await removeHome(this.home);
    await rm(this.#files, { recursive: true, force: true });
  }
}

/** A firewall as a person would set it up, on a host. */
export async function firewall(host: Host, rules: string): Promise<void> {
  const run = await host.run('nft', ['-f', '-'], { input: rules });
  expect(run.code, run.stderr).toBe(0);
}
