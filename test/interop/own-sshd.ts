import { type ChildProcess, spawn } from 'node:child_process';
import {
  chmodSync,
  chownSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { hasProgram, runProgram } from '../flow/clients.ts';

/** Unpacked by `ensureSshServer` (scripts/system-tools.mjs), or of the system. */
const unpacked = join(import.meta.dirname, '../../.cache/openssh-server');
const program = [join(unpacked, 'usr/sbin/sshd'), '/usr/sbin/sshd'].find((path) => existsSync(path));

/** A server with log-ins of its own takes root's rights: it gets a user list of its own in namespaces of its own. */
export const hasSshd: boolean =
  process.platform === 'linux' &&
  process.getuid?.() === 0 &&
  program !== undefined &&
  ['unshare', 'mount', 'ssh-keygen', 'openssl'].every((name) => hasProgram(name)) &&
  (await runProgram('unshare', ['--mount', '--pid', '--fork', 'true'])).code === 0;

const uid = 991;

/** OpenSSH's server as somebody's file server: user `deliver` with a password and a key, who owns {@link files}. */
export class OwnSshd {
  readonly user = 'deliver';
  readonly password = 'right-Password-7';
  readonly privateKey: string;
  /** SHA256:…, as `ssh-keygen -l` says. */
  readonly fingerprint: string;
  /** The folder of the user, seen from outside. */
  readonly files: string;
  readonly port: number;
  readonly #place: string;
  #child: ChildProcess | null = null;
  #log = '';

  private constructor(place: string, port: number, privateKey: string, fingerprint: string) {
    this.#place = place;
    this.files = join(place, 'files');
    this.port = port;
    this.privateKey = privateKey;
    this.fingerprint = fingerprint;
  }

  /** `refuses`: requests of SFTP that it does not answer, as `sftp-server -P` takes them. */
  static async make(refuses = ''): Promise<OwnSshd> {
    const place = mkdtempSync(join(tmpdir(), 'setside-sshd-'));
    chmodSync(place, 0o755);
    for (const name of ['host', 'user'])
      await runProgram('ssh-keygen', ['-q', '-t', 'ed25519', '-N', '', '-f', join(place, name)]);
    const printed = await runProgram('ssh-keygen', ['-l', '-f', join(place, 'host.pub')]);
    const fingerprint = /SHA256:\S+/.exec(printed.stdout)?.[0] ?? '';
    const key = readFileSync(join(place, 'user'), 'utf8');
    const sshd = new OwnSshd(place, await freePort(), key, fingerprint);
    await sshd.#settle(refuses);
    return sshd;
  }

  async #settle(refuses: string): Promise<void> {
    mkdirSync(this.files);
    chownSync(this.files, uid, uid);
    const hash = (await runProgram('openssl', ['passwd', '-6', this.password])).stdout.trim();
    const passwd = readFileSync('/etc/passwd', 'utf8');
    const shadow = readFileSync('/etc/shadow', 'utf8');
    const at = (name: string): string => join(this.#place, name);
    writeFileSync(
      at('passwd'),
      `${passwd}sshd:x:990:65534::/run/sshd:/usr/sbin/nologin\n${this.user}:x:${uid}:65534::${this.files}:/bin/sh\n`,
    );
    writeFileSync(at('shadow'), `${shadow}${this.user}:${hash}:20000:0:99999:7:::\n`, { mode: 0o640 });
    writeFileSync(
      at('config'),
      [
        `Port ${this.port}`,
        'ListenAddress 127.0.0.1',
        `HostKey ${at('host')}`,
        `AuthorizedKeysFile ${at('user.pub')}`,
        'PidFile none',
        'StrictModes no',
        'UsePAM no',
        'MaxStartups 100',
        `Subsystem sftp internal-sftp${refuses === '' ? '' : ` -P ${refuses}`}`,
      ].join('\n'),
    );
    const mounts = [
      `mount --bind ${at('passwd')} /etc/passwd`,
      `mount --bind ${at('shadow')} /etc/shadow`,
      'mount -t tmpfs tmpfs /run',
      'mkdir -p /run/sshd',
    ];
    const run = `exec env LD_LIBRARY_PATH=${libraryFolders().join(':')} ${program} -D -e -f ${at('config')}`;
    writeFileSync(at('start'), [...mounts, run].join(' &&\n'));
  }

  /** Settles when it listens. */
  async start(): Promise<void> {
    const args = ['--mount', '--pid', '--fork', '--kill-child', 'sh', join(this.#place, 'start')];
    const child = spawn('unshare', args, { stdio: ['ignore', 'ignore', 'pipe'] });
    this.#child = child;
    await new Promise<void>((resolve, reject) => {
      child.stderr.on('data', (bytes: Buffer) => {
        this.#log += bytes.toString();
        if (/Server listening/.test(bytes.toString())) resolve();
      });
      child.once('exit', () => reject(new Error(`sshd ended: ${this.#log}`)));
    });
  }

  /** kill -9, with every session that is open; settles when all are gone. */
  async kill(): Promise<void> {
    const child = this.#child;
    if (child === null || child.exitCode !== null || child.signalCode !== null) return;
    const gone = new Promise((resolve) => child.once('close', resolve));
    child.kill('SIGKILL');
    await gone;
  }

  /** What it wrote to its log. */
  log(): string {
    return this.#log;
  }

  async remove(): Promise<void> {
    await this.kill();
    rmSync(this.#place, { recursive: true, force: true });
  }
}

/** Where the libraries that were unpacked beside it lie. */
function libraryFolders(): readonly string[] {
  if (!existsSync(unpacked)) return [];
  return readdirSync(unpacked, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('libwrap.so.0'))
    .map((path) => join(unpacked, dirname(path)));
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer().on('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });
}
