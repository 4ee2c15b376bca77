import type { ChildProcess } from 'node:child_process';
import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import ssh2, { type Client } from 'ssh2';
import {
  type CameraFolder,
  type DoorKeeper,
  type KeyKeeper,
  type LineReport,
  makeHostKey,
  type SftpDoor,
  type SftpDoorOptions,
  startSftpDoor,
} from '../../src/receive/index.ts';
import { MemoryFolder, type MemoryFolderOptions } from '../../src/receive/testing/memory-folder.ts';
import { type Ran, runProgram } from '../flow/clients.ts';

export interface SftpHall {
  readonly door: SftpDoor;
  readonly folder: MemoryFolder;
  readonly reports: LineReport[];
  codes(): string[];
}

/** Made once: keys are dear, and no test here is about which they are. */
export const hostKeys: readonly string[] = [makeHostKey('ed25519'), makeHostKey('ecdsa')];

/** Waits that tests can afford. Everything else is as delivered. */
const quick: SftpDoorOptions['limits'] = { loginDelayMs: 20, loginDelayMaxMs: 80, lingerMs: 200 };

export interface SftpHallOptions extends Partial<SftpDoorOptions> {
  readonly folder?: MemoryFolderOptions;
  /** A folder in place of the one in memory. */
  readonly real?: CameraFolder;
  /** Public keys of the camera, as OpenSSH writes them. */
  readonly keys?: readonly string[];
}

/** A door in front of a folder in memory: user `camera` may come in with password `right` or one of the keys. */
export async function openSftpHall(options: SftpHallOptions = {}): Promise<SftpHall> {
  const { folder: folderOptions, limits, keys = [], real, ...doorOptions } = options;
  const folder = new MemoryFolder(folderOptions);
  const reports: LineReport[] = [];
  const camera = { name: 'Camera A', folder: real ?? folder };
  const keeper: DoorKeeper & KeyKeeper = {
    admit: async ({ user, password }) => (user === 'camera' && password === 'right' ? camera : null),
    admitKey: async ({ user, key }) =>
      user === 'camera' && keys.some((known) => known.startsWith(key)) ? camera : null,
  };
  const door = await startSftpDoor(
    { host: '127.0.0.1', port: 0, hostKeys, ...doorOptions, limits: { ...quick, ...limits } },
    keeper,
    (report) => reports.push(report),
  );
  return { door, folder, reports, codes: () => reports.map(({ finding }) => finding.code) };
}

/** What OpenSSH's programs need: nothing of this user's own settings, and the password from a program that prints it. */
export class OpenSsh {
  readonly #place = mkdtempSync(join(tmpdir(), 'setside-ssh-'));
  readonly #port: number;
  readonly #user: string;
  readonly #password: string;

  constructor(port: number, user = 'camera', password = 'right') {
    this.#port = port;
    this.#user = user;
    this.#password = password;
    this.file('askpass', '#!/bin/sh\necho "$SETSIDE_TEST_PASSWORD"\n');
    chmodSync(join(this.#place, 'askpass'), 0o700);
  }

  /** Writes a file beside the settings and gives its path. */
  file(name: string, content: string | Uint8Array): string {
    const path = join(this.#place, name);
    writeFileSync(path, content, { mode: 0o600 });
    return path;
  }

  /** `sftp` with a script of commands. */
  sftp(
    script: string,
    more: readonly string[] = [],
    password = this.#password,
    started?: (child: ChildProcess) => void,
  ): Promise<Ran> {
    const batch = this.file('batch', `${script}\n`);
    const args = [...this.#options, '-P', String(this.#port), ...more, '-b', batch, this.#host];
    return this.#run('sftp', args, password, started);
  }

  scp(files: readonly string[], to: string, more: readonly string[] = []): Promise<Ran> {
    const options = [...this.#options, '-P', String(this.#port), ...more];
    return this.#run('scp', [...options, ...files, `${this.#host}:${to}`], this.#password);
  }

  /** `ssh` itself, for what is not there. */
  ssh(words: readonly string[], more: readonly string[] = []): Promise<Ran> {
    return this.#run(
      'ssh',
      [...this.#options, '-p', String(this.#port), ...more, this.#host, ...words],
      this.#password,
    );
  }

  remove(): void {
    rmSync(this.#place, { recursive: true, force: true });
  }

  get #host(): string {
    return `${this.#user}@127.0.0.1`;
  }

  get #options(): string[] {
    const known = join(this.#place, 'known_hosts');
    return [
      '-F',
      '/dev/null',
      '-o',
      'StrictHostKeyChecking=accept-new',
      '-o',
      `UserKnownHostsFile=${known}`,
      '-o',
      'IdentityAgent=none',
      '-o',
      'NumberOfPasswordPrompts=1',
      // `-b` alone would forbid asking for a password.
      '-o',
      'BatchMode=no',
    ];
  }

  #run(
    program: string,
    args: readonly string[],
    password: string,
    started?: (child: ChildProcess) => void,
  ): Promise<Ran> {
    const env = [
      `SSH_ASKPASS=${join(this.#place, 'askpass')}`,
      'SSH_ASKPASS_REQUIRE=force',
      `SETSIDE_TEST_PASSWORD=${password}`,
    ];
    return runProgram('env', [...env, program, ...args], started === undefined ? {} : { started });
  }
}

/** ssh2's own client, logged in. */
export function connectSsh2(port: number, more: Parameters<Client['connect']>[0] = {}): Promise<Client> {
  const client = new ssh2.Client();
  return new Promise((resolve, reject) => {
    client.on('ready', () => resolve(client)).on('error', reject);
    // Sent off in order, which is no error to ssh2.
    client.on('close', () => reject(new Error('closed')));
    client.connect({ host: '127.0.0.1', port, username: 'camera', password: 'right', ...more });
  });
}
