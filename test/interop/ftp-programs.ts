import { Client } from 'basic-ftp';
import { expect } from 'vitest';
import { type Ran, runProgram } from '../flow/clients.ts';

/** Clients that others wrote, run against a door on this computer whose user is `camera` and password `right`. */

/** What a program printed; fails where it ended in trouble. */
export async function expectSuccess(ran: Promise<Ran>): Promise<string> {
  const { code, stdout, stderr } = await ran;
  expect(code, stderr).toBe(0);
  return stdout;
}

/** An IPv6 address stands in brackets within an address of the web (RFC 3986 section 3.2.2). */
const inUrl = (host: string): string => (host.includes(':') ? `[${host}]` : host);

/** `curl -T`, with what else is wanted. */
export function runCurl(
  port: number,
  file: string,
  path: string,
  more: readonly string[] = [],
  host = '127.0.0.1',
): Promise<string> {
  return expectSuccess(
    runProgram('curl', ['-sS', ...more, '-T', file, `ftp://camera:right@${inUrl(host)}:${port}${path}`]),
  );
}

export function runLftp(port: number, script: string, host = '127.0.0.1'): Promise<string> {
  const open = `open -u camera,right -p ${port} ${inUrl(host)}`;
  return expectSuccess(
    runProgram('lftp', ['-c', `set cmd:fail-exit yes; set net:max-retries 1; ${open}; ${script}`]),
  );
}

/** Python's ftplib, logged in as `ftp`; `path` is `place`. */
export function runFtplib(port: number, place: string, script: string, host = '127.0.0.1'): Promise<string> {
  const whole = `import ftplib, io, sys
ftp = ftplib.FTP()
ftp.connect('${host}', ${port}, timeout=15)
ftp.login('camera', 'right')
path = sys.argv[1]
${script}
`;
  return expectSuccess(runProgram('python3', ['-c', whole, place]));
}

export async function runBasicFtp(
  port: number,
  work: (client: Client) => Promise<void>,
  host = '127.0.0.1',
): Promise<void> {
  const client = new Client();
  try {
    await client.access({ host, port, user: 'camera', password: 'right' });
    await work(client);
  } finally {
    client.close();
  }
}
