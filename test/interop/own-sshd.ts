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
import { tmpdir, userInfo } from 'node:os';
import { dirname, join } from 'node:path';
import { hasProgram, runProgram } from '../flow/clients.ts';

/** Unpacked by `ensureSshServer` (scripts/system-tools.mjs), or of the system. */
const unpacked = join(import.meta.dirname, '../../.cache/openssh-server');
const program = [join(unpacked, 'usr/sbin/sshd'), '/usr/sbin/sshd'].find((path) => existsSync(path));

const isRoot = process.getuid?.() === 0;

/** Passwords, and a user beside the one who runs the tests, take root's rights: a user list of its own in namespaces of its own. */
export const hasSshdOfRoot: boolean =
  process.platform === 'linux' &&
  isRoot &&
  program !== undefined &&
  ['unshare', 'mount', 'ssh-keygen', 'openssl'].every((name) => hasProgram(name)) &&
  (await runProgram('unshare', ['--mount', '--pid', '--fork', 'true'])).code === 0;

/** Anybody else's server lets in whoever runs it, by a key. */
export const hasSshd: boolean =
  hasSshdOfRoot ||
  (process.platform === 'linux' && !isRoot && program !== undefined && hasProgram('ssh-keygen'));

const uid = 991;
const ofItsOwn = ['--mount', '--pid', '--fork', '--kill-child'];

/** OpenSSH's server as somebody's file server: root's has a user `deliver` with a password and a key, who owns {@link files}. */
export class OwnSshd {
  readonly user: string = hasSshdOfRoot ? 'deliver' : userInfo().username;
  readonly logInBy: 'password' | 'key' = hasSshdOfRoot ? 'password' : 'key';
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

  /** What lets {@link user} in by {@link logInBy}. */
  get secret(): string {
    return this.logInBy === 'key' ? this.privateKey : this.password;
  }

  /** Gives a file to the user whom the server lets in. */
  own(path: string): void {
    if (hasSshdOfRoot) chownSync(path, uid, uid);
  }

  async #settle(refuses: string): Promise<void> {
    mkdirSync(this.files);
    this.own(this.files);
    this.#configure(refuses);
    if (hasSshdOfRoot) await this.#settleAsRoot();
  }

  async #settleAsRoot(): Promise<void> {
    const hash = (await runProgram('openssl', ['passwd', '-6', this.password])).stdout.trim();
    const passwd = readFileSync('/etc/passwd', 'utf8');
    const shadow = readFileSync('/etc/shadow', 'utf8');
    const at = (name: string): string => join(this.#place, name);
    writeFileSync(
      at('passwd'),
      `${passwd}sshd:x:990:65534::/run/sshd:/usr/sbin/nologin\n${this.user}:x:${uid}:65534::${this.files}:/bin/sh\n`,
    );
    writeFileSync(at('shadow'), `${shadow}${this.user}:${hash}:20000:0:99999:7:::\n`, { mode: 0o640 });
    const mounts = [
      `mount --bind ${at('passwd')} /etc/passwd`,
      `mount --bind ${at('shadow')} /etc/shadow`,
      'mount -t tmpfs tmpfs /run',
      'mkdir -p /run/sshd',
    ];
    const run = `exec env LD_LIBRARY_PATH=${libraryFolders().join(':')} ${program} -D -e -f ${at('config')}`;
    writeFileSync(at('start'), [...mounts, run].join(' &&\n'));
  }

  #configure(refuses: string): void {
    const at = (name: string): string => join(this.#place, name);
    const folder = hasSshdOfRoot ? '' : ` -d ${this.files}`;
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
        `Subsystem sftp internal-sftp${folder}${refuses === '' ? '' : ` -P ${refuses}`}`,
      ].join('\n'),
    );
  }

  /** Settles when it listens. */
  async start(): Promise<void> {
    const child = hasSshdOfRoot
      ? spawn('unshare', [...ofItsOwn, 'sh', join(this.#place, 'start')], {
          stdio: ['ignore', 'ignore', 'pipe'],
        })
      : spawn(program ?? 'sshd', ['-D', '-e', '-f', join(this.#place, 'config')], {
          stdio: ['ignore', 'ignore', 'pipe'],
          env: { ...process.env, LD_LIBRARY_PATH: libraryFolders().join(':') },
        });
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
    const sessions = hasSshdOfRoot || child.pid === undefined ? [] : childrenOf(child.pid);
    child.kill('SIGKILL');
    // Root's end with the namespace they are in.
    for (const pid of sessions) endNow(pid);
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

/** One that has ended by itself meanwhile is what was wanted. */
function endNow(pid: number): void {
  try {
    process.kill(pid, 'SIGKILL');
  } catch {}
}

/** Processes that this one began, and those began (proc(5), `/proc/[pid]/task/[tid]/children`). */
function childrenOf(pid: number): readonly number[] {
  const list = readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8');
  const own = list
    .split(' ')
    .filter((each) => each !== '')
    .map(Number);
  return own.flatMap((each) => [each, ...childrenOf(each)]);
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
