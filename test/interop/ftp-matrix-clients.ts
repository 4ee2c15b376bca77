import { Client } from 'basic-ftp';
import { hasProgram, runProgram } from '../flow/clients.ts';
import { expectSuccess, runFtplib, runLftp } from './ftp-programs.ts';

/** What a client does, in one row of the matrix; each ends in a state that the folder shows. */
export const manners = ['upload', 'resume', 're-upload', 'rename', 'list'] as const;
export type Manner = (typeof manners)[number];

/** One cell: where the door is, how data connections come about, and the files to send. */
export interface Spot {
  readonly port: number;
  readonly host: '127.0.0.1' | '::1';
  readonly active: boolean;
  /** A folder with `a.dng` (the whole), `b.dng` (another) and `half/a.dng` (its first part). */
  readonly place: string;
  readonly halfBytes: number;
}

export interface MatrixClient {
  readonly name: string;
  readonly isHere: boolean;
  /** Does one manner; gives what was printed. Rejects, or fails, where the client says that it failed. */
  run(manner: Manner, spot: Spot): Promise<string>;
  /** Why a cell cannot be had from this client, null where it can. */
  cannot(manner: Manner, spot: Pick<Spot, 'host' | 'active'>): string | null;
}

/** An IPv6 address stands in brackets within an address of the web (RFC 3986 section 3.2.2). */
const inUrl = (host: string): string => (host === '::1' ? '[::1]' : host);
const always = (): null => null;

const curl: MatrixClient = {
  name: 'curl',
  isHere: hasProgram('curl'),
  cannot: always,
  async run(manner, { host, port, active, place, halfBytes }) {
    const url = (path: string): string => `ftp://camera:right@${inUrl(host)}:${port}/${path}`;
    const ask = (...args: readonly string[]): Promise<string> =>
      expectSuccess(runProgram('curl', ['-sS', ...(active ? ['-P', '-'] : []), ...args]));
    switch (manner) {
      case 'upload':
        return ask('-T', `${place}/a.dng`, url('a.dng'));
      case 'resume':
        await ask('-T', `${place}/half/a.dng`, url('a.dng'));
        return ask('-C', String(halfBytes), '-T', `${place}/a.dng`, url('a.dng'));
      case 're-upload':
        await ask('-T', `${place}/b.dng`, url('a.dng'));
        return ask('-T', `${place}/a.dng`, url('a.dng'));
      case 'rename':
        return ask('-T', `${place}/a.dng`, '-Q', '-RNFR a.tmp', '-Q', '-RNTO a.dng', url('a.tmp'));
      case 'list':
        return ask('-l', url(''));
    }
  },
};

const lftp: MatrixClient = {
  name: 'lftp',
  isHere: hasProgram('lftp'),
  cannot: always,
  run(manner, { host, port, active, place }) {
    const scripts: Readonly<Record<Manner, string>> = {
      upload: `put ${place}/a.dng`,
      resume: `put ${place}/half/a.dng; put -c ${place}/a.dng`,
      're-upload': `put ${place}/b.dng -o a.dng; put ${place}/a.dng`,
      rename: `put ${place}/a.dng -o a.tmp; mv a.tmp a.dng`,
      list: 'cls -1',
    };
    return runLftp(port, `set ftp:passive-mode ${active ? 'off' : 'on'}; ${scripts[manner]}`, host);
  },
};

const ncftp: MatrixClient = {
  name: 'NcFTP',
  isHere: hasProgram('ncftpput') && hasProgram('ncftpls'),
  cannot: (_manner, { host }) => (host === '::1' ? 'it knows IPv4 only' : null),
  async run(manner, { host, port, active, place }) {
    const how = [active ? '-E' : '-F', '-u', 'camera', '-p', 'right', '-P', String(port)];
    const put = (file: string, ...more: readonly string[]): Promise<string> =>
      expectSuccess(runProgram('ncftpput', [...how, ...more, host, '/', `${place}/${file}`]));
    switch (manner) {
      case 'upload':
        return put('a.dng');
      case 'resume':
        await put('half/a.dng');
        // With sendfile (without -s) version 3.2.6 sends the file from its first byte, whatever it said in REST.
        return put('a.dng', '-z', '-s');
      case 're-upload':
        await expectSuccess(runProgram('ncftpput', [...how, '-C', host, `${place}/b.dng`, '/a.dng']));
        return put('a.dng');
      case 'rename':
        return put('a.dng', '-S', '.tmp');
      case 'list':
        return expectSuccess(runProgram('ncftpls', [...how, `ftp://${host}/`]));
    }
  },
};

const tnftp: MatrixClient = {
  name: 'tnftp',
  isHere: hasProgram('tnftp'),
  cannot: always,
  run(manner, { host, port, active, place, halfBytes }) {
    const scripts: Readonly<Record<Manner, readonly string[]>> = {
      upload: [`put ${place}/a.dng a.dng`],
      resume: [`put ${place}/half/a.dng a.dng`, `restart ${halfBytes}`, `put ${place}/a.dng a.dng`],
      're-upload': [`put ${place}/b.dng a.dng`, `put ${place}/a.dng a.dng`],
      rename: [`put ${place}/a.dng a.tmp`, 'rename a.tmp a.dng'],
      list: ['nlist'],
    };
    const lines = [`open ${host} ${port}`, 'user camera right', 'binary', ...scripts[manner], 'bye', ''];
    return expectSuccess(
      runProgram('tnftp', ['-n', '-v', active ? '-A' : '-p'], { input: lines.join('\n') }),
    );
  },
};

const ftplib: MatrixClient = {
  name: "Python's ftplib",
  isHere: hasProgram('python3'),
  cannot: always,
  run(manner, { host, port, active, place, halfBytes }) {
    const scripts: Readonly<Record<Manner, string>> = {
      upload: "put('a.dng', 'a.dng')",
      resume: `put('half/a.dng', 'a.dng')\nput('a.dng', 'a.dng', ${halfBytes})`,
      're-upload': "put('b.dng', 'a.dng')\nput('a.dng', 'a.dng')",
      rename: "put('a.dng', 'a.tmp')\nftp.rename('a.tmp', 'a.dng')",
      list: 'print(ftp.nlst())',
    };
    const script = `
ftp.set_pasv(${active ? 'False' : 'True'})
def put(file, name, rest=None):
    with open(path + '/' + file, 'rb') as f:
        f.seek(rest or 0)
        ftp.storbinary('STOR ' + name, f, rest=rest)
${scripts[manner]}
ftp.quit()`;
    return runFtplib(port, place, script, host);
  },
};

const basicFtp: MatrixClient = {
  name: 'basic-ftp',
  isHere: true,
  cannot: (_manner, { active }) => (active ? 'it has no active mode' : null),
  async run(manner, { host, port, place, halfBytes }) {
    const client = new Client();
    try {
      await client.access({ host, port, user: 'camera', password: 'right' });
      switch (manner) {
        case 'upload':
          await client.uploadFrom(`${place}/a.dng`, 'a.dng');
          return '';
        case 'resume':
          await client.uploadFrom(`${place}/half/a.dng`, 'a.dng');
          await client.appendFrom(`${place}/a.dng`, 'a.dng', { localStart: halfBytes });
          return '';
        case 're-upload':
          await client.uploadFrom(`${place}/b.dng`, 'a.dng');
          await client.uploadFrom(`${place}/a.dng`, 'a.dng');
          return '';
        case 'rename':
          await client.uploadFrom(`${place}/a.dng`, 'a.tmp');
          await client.rename('a.tmp', 'a.dng');
          return '';
        case 'list':
          return (await client.list()).map(({ name }) => name).join('\n');
      }
    } finally {
      client.close();
    }
  },
};

export const matrixClients: readonly MatrixClient[] = [curl, lftp, ncftp, tnftp, ftplib, basicFtp];
