import { Readable } from 'node:stream';
import { Client } from 'basic-ftp';
import ssh2, { type SFTPWrapper } from 'ssh2';
import type { RunningStation } from '../flow/running-station.ts';

/** A client that sends files by one of the doors. Each promise settles when the station has acknowledged. */
export interface Sender {
  makeFolder(path: string): Promise<void>;
  upload(bytes: Uint8Array, path: string): Promise<void>;
  rename(from: string, to: string): Promise<void>;
  /** Sends so much and breaks the line. */
  giveUp(bytes: Uint8Array, path: string): Promise<void>;
  close(): void;
}

const host = '127.0.0.1';

/** FTP, or FTPS with TLS from the first byte. The certificate is another test's matter. */
export async function ftpSender(station: RunningStation, how: 'ftp' | 'ftps'): Promise<Sender> {
  const { ready, user, password } = station;
  const client = new Client(10_000);
  await client.access({
    host,
    port: (how === 'ftp' ? ready.ftp : ready.ftps) ?? 0,
    user,
    password,
    secure: how === 'ftp' ? false : 'implicit',
    secureOptions: { rejectUnauthorized: false },
  });
  const upload = async (bytes: Uint8Array, path: string): Promise<void> => {
    await client.uploadFrom(Readable.from([Buffer.from(bytes)]), path);
  };
  return {
    makeFolder: async (path) => {
      await client.ensureDir(path);
      await client.cd('/');
    },
    upload,
    rename: async (from, to) => {
      await client.rename(from, to);
    },
    giveUp: async (bytes, path) => {
      await client.uploadFrom(breakingAfter(bytes), path);
    },
    close: () => client.close(),
  };
}

export async function sftpSender(station: RunningStation): Promise<Sender> {
  const { ready, user, password } = station;
  const client = new ssh2.Client();
  const sftp = await new Promise<SFTPWrapper>((resolve, reject) => {
    client.on('ready', () => client.sftp((error, channel) => (error ? reject(error) : resolve(channel))));
    client.on('error', reject);
    client.on('close', () => reject(new Error('closed')));
    client.connect({ host, port: ready.sftp ?? 0, username: user, password });
  });
  // A request that a dead connection will never answer is over with it.
  const gone = new Promise<never>((_, reject) => {
    client.on('close', () => reject(new Error('the station is gone')));
  });
  gone.catch(() => {});
  const asked = (ask: (done: (error?: Error | null) => void) => void): Promise<void> =>
    Promise.race([
      gone,
      new Promise<void>((resolve, reject) => ask((error) => (error ? reject(error) : resolve()))),
    ]);
  return {
    makeFolder: async (path) => {
      const parts = path.split('/').filter((part) => part !== '');
      for (const [index] of parts.entries()) {
        const folder = `/${parts.slice(0, index + 1).join('/')}`;
        await asked((done) => sftp.mkdir(folder, () => done()));
      }
    },
    upload: (bytes, path) => asked((done) => sftp.writeFile(path, Buffer.from(bytes), done)),
    rename: (from, to) => asked((done) => sftp.rename(from, to, done)),
    giveUp: async (bytes, path) => {
      const opened = new Promise<Buffer>((resolve, reject) =>
        sftp.open(path, 'w', (error, handle) => (error ? reject(error) : resolve(handle))),
      );
      const handle = await Promise.race([gone, opened]);
      await asked((done) => sftp.write(handle, Buffer.from(bytes), 0, bytes.length, 0, done));
      client.destroy();
      throw new Error('given up');
    },
    close: () => client.destroy(),
  };
}

/** Gives some bytes and then fails: the data connection breaks. */
function breakingAfter(bytes: Uint8Array): Readable {
  return new Readable({
    read() {
      this.push(bytes);
      this.destroy(new Error('given up'));
    },
  });
}
