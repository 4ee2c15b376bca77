/** The programs the tests drive: real protocol clients, a browser, outside judges. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { root, run, say } from './ready.mjs';

/** [program looked for on the PATH (or at its address), Debian package that brings it, what it is needed for] */
const programs = [
  ['chromium', 'chromium', 'the pages, in a real browser'],
  ['curl', 'curl', 'uploads by a real FTP client'],
  ['lftp', 'lftp', 'uploads, resume and renames by a real FTP client'],
  ['ncftpput', 'ncftp', 'uploads by a real FTP client'],
  ['tnftp', 'tnftp', 'uploads by a real FTP client'],
  ['python3', 'python3', 'uploads by ftplib'],
  ['openssl', 'openssl', 'TLS facts from an outside judge'],
  ['sftp', 'openssh-client', 'uploads by OpenSSH'],
  ['/usr/lib/openssh/sftp-server', 'openssh-sftp-server', 'the reference the bench holds our SFTP against'],
  ['exiftool', 'libimage-exiftool-perl', 'reading tags as an outside judge'],
  ['dcraw_emu', 'libraw-bin', 'developing raw files as an outside judge'],
  ['transicc', 'liblcms2-utils', 'converting colours as an outside judge'],
  ['pdfinfo', 'poppler-utils', 'reading PDF files as an outside judge'],
  ['strace', 'strace', 'watching the order of writes and syncs'],
  ['ip', 'iproute2', 'test hosts of their own'],
  ['nft', 'nftables', 'lines that lose packets and walls that shut ports'],
  ['iptables', 'iptables', 'the older way to write walls'],
  ['dnsmasq', 'dnsmasq-base', 'a router that deals out addresses'],
  ['udhcpc', 'udhcpc', 'a host that asks for an address'],
  ['faketime', 'faketime', 'a camera whose clock is wrong'],
  ['fiu-run', 'fiu-utils', 'disks that fail'],
];

/**
 * Installs what is missing where this is Debian (or a child of it) and we may; otherwise says what to install and goes
 * on: a test whose program is not there is skipped by name.
 */
export function ensureSystemTools() {
  const missing = programs.filter(([program]) => !onPath(program));
  if (missing.length === 0) return;
  const packages = missing.map(([, name]) => name);
  if (process.platform === 'linux' && onPath('apt-get')) {
    const asRoot = process.getuid?.() === 0 ? [] : ['sudo', '-n'];
    if (asRoot.length === 0 || sudoWorks()) {
      say(`Installing for the tests: ${packages.join(' ')} …`);
      const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
      const [command, ...rest] = [...asRoot, 'apt-get'];
      run(command, [...rest, 'update', '-qq'], { env });
      run(command, [...rest, 'install', '-y', '-qq', '--no-install-recommends', ...packages], { env });
      return;
    }
  }
  say('The tests also drive these programs; install them for a full run:');
  for (const [program, name, why] of missing) say(`  ${program} (Debian: ${name}) - ${why}`);
}

/**
 * OpenSSH's server, unpacked into .cache and not installed: as a package of the system it would begin to listen on this computer. The
 * tests start it in a corner of its own (test/interop/own-sshd.ts).
 */
export function ensureSshServer() {
  const folder = join(root, '.cache/openssh-server');
  if (existsSync(join(folder, 'usr/sbin/sshd'))) return;
  if (process.platform !== 'linux' || !onPath('apt-get') || !onPath('dpkg')) return;
  say("Fetching OpenSSH's server for the tests …");
  mkdirSync(folder, { recursive: true });
  const packages = ['openssh-server', 'libwrap0', 'libnsl2', 'libtirpc3'];
  const fetched = spawnSync('apt-get', ['download', '-qq', ...packages], { cwd: folder, stdio: 'ignore' });
  if (fetched.status !== 0) return;
  for (const name of readdirSync(folder).filter((each) => each.endsWith('.deb'))) {
    run('dpkg', ['-x', join(folder, name), folder]);
  }
}

function onPath(program) {
  if (program.startsWith('/')) return existsSync(program);
  return (process.env.PATH ?? '')
    .split(delimiter)
    .some((folder) => existsSync(join(folder, program)) || existsSync(join(folder, `${program}.exe`)));
}

function sudoWorks() {
  return spawnSync('sudo', ['-n', 'true'], { stdio: 'ignore' }).status === 0;
}
