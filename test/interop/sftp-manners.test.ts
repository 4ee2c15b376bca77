import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { connect, type Socket } from 'node:net';
import type { Client, SFTPWrapper } from 'ssh2';
import ssh2 from 'ssh2';
import { afterEach, describe, expect, test } from 'vitest';
import { defaultSftpLimits, makeHostKey } from '../../src/receive/index.ts';
import { ed25519Pair } from '../ed25519-pair.ts';
import { eventually } from '../flow/running-station.ts';
import { connectSsh2, OpenSsh, openSftpHall, type SftpHall, type SftpHallOptions } from './sftp-hall.ts';

/** Manners of clients, good and bad, mostly by ssh2's own client, which says whatever it is told to. */
const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
const bytesOf = (length: number): Uint8Array =>
  new Uint8Array(length).map((_, index) => (Math.imul(index, 2_654_435_761) >>> 13) & 0xff);

let hall: SftpHall | null = null;
const clients: Client[] = [];

async function open(options: SftpHallOptions = {}): Promise<SftpHall> {
  hall = await openSftpHall(options);
  return hall;
}

afterEach(async () => {
  for (const client of clients.splice(0)) client.end();
  await hall?.door.close();
  hall = null;
});

async function logIn(port: number, more?: Parameters<typeof connectSsh2>[1]): Promise<Client> {
  const client = await connectSsh2(port, more);
  client.on('error', () => {});
  clients.push(client);
  return client;
}

/** What ssh2 calls back with, as a promise. */
function asked<Value>(ask: (done: (error: Error | undefined, value: Value) => void) => void): Promise<Value> {
  return new Promise((resolve, reject) => {
    ask((error, value) => (error ? reject(error) : resolve(value)));
  });
}

const sftpOf = (client: Client): Promise<SFTPWrapper> => asked((done) => client.sftp(done));
const openNew = (sftp: SFTPWrapper, path: string): Promise<Buffer> =>
  asked((done) => sftp.open(path, 'w', done));
const write = (sftp: SFTPWrapper, handle: Buffer, bytes: Uint8Array, at: number): Promise<unknown> =>
  asked((done) =>
    sftp.write(handle, Buffer.from(bytes), 0, bytes.length, at, (error) => done(error ?? undefined, null)),
  );
const close = (sftp: SFTPWrapper, handle: Buffer): Promise<unknown> =>
  asked((done) => sftp.close(handle, (error) => done(error ?? undefined, null)));

describe('writing', () => {
  test('11.2 eight parallel writes out of order, two files at once on one connection', async () => {
    const { door, folder } = await open();
    const sftp = await sftpOf(await logIn(door.port));
    const frame = bytesOf(2_000_003);
    const size = 32_768;
    const put = async (path: string, order: (block: number) => number): Promise<void> => {
      const handle = await openNew(sftp, path);
      const blocks = Array.from({ length: Math.ceil(frame.length / size) }, (_, block) => block);
      for (let at = 0; at < blocks.length; at += 8) {
        const some = blocks.slice(at, at + 8).sort((a, b) => order(a) - order(b));
        await Promise.all(
          some.map((block) =>
            write(sftp, handle, frame.subarray(block * size, (block + 1) * size), block * size),
          ),
        );
      }
      await close(sftp, handle);
    };
    await Promise.all([put('/a.dng', (block) => -block), put('/b.dng', (block) => (block * 5) % 8)]);
    expect(folder.originals.map(({ bytes }) => sha256(bytes))).toEqual([sha256(frame), sha256(frame)]);
  });

  test('11.4 a connection cut without a close breaks the file off; it goes on where it stopped', async () => {
    const { door, folder, codes } = await open();
    const frame = bytesOf(300_000);
    const client = await logIn(door.port);
    const sftp = await sftpOf(client);
    const handle = await openNew(sftp, '/a.dng');
    await write(sftp, handle, frame.subarray(0, 30_000), 0);
    client.destroy();
    await eventually('broken off', async () => codes().includes('line.upload-broken-off'));
    expect(folder.ends).toEqual(['control-lost']);
    const again = await sftpOf(await logIn(door.port));
    const { size } = await asked<{ size: number }>((done) => again.stat('/a.dng', done));
    expect(size).toBe(30_000);
    const rest = await asked<Buffer>((done) => again.open('/a.dng', 'r+', done));
    await write(again, rest, frame.subarray(size), size);
    await close(again, rest);
    expect(sha256(folder.read('/a.dng') ?? new Uint8Array(0))).toBe(sha256(frame));
  });

  test('11.9 a slow disk holds the client back, and memory stays bounded', async () => {
    let release: () => void = () => {};
    const gate = new Promise<void>((resolve) => {
      release = resolve;
    });
    const { door, folder } = await open({ folder: { beforeWrite: () => gate } });
    const sftp = await sftpOf(await logIn(door.port));
    const frame = bytesOf(30_000_000);
    const handle = await openNew(sftp, '/a.dng');
    const answered = new Set<number>();
    const size = 32_768;
    const writes = Array.from({ length: Math.ceil(frame.length / size) }, (_, block) =>
      write(sftp, handle, frame.subarray(block * size, (block + 1) * size), block * size).then(() =>
        answered.add(block),
      ),
    );
    await eventually('the buffers are full', async () => answered.size >= 48);
    // Time for whatever would still come, were the client not held back.
    for (let turn = 0; turn < 50; turn += 1) await new Promise((resolve) => setImmediate(resolve));
    // Four buffers (`bufferBytes`) and one packet, of 30 MB that the client would send at once.
    expect(answered.size * size).toBeLessThan(4 * defaultSftpLimits.bufferBytes + 2 * size);
    release();
    await Promise.all(writes);
    await close(sftp, handle);
    expect(sha256(folder.read('/a.dng') ?? new Uint8Array(0))).toBe(sha256(frame));
  });

  test('11.1 the close is answered only once the folder says that the file is kept', async () => {
    let release: () => void = () => {};
    const gate = new Promise<void>((resolve) => {
      release = resolve;
    });
    let isAsked = false;
    const { door, folder } = await open({
      folder: {
        beforeFinish: () => {
          isAsked = true;
          return gate;
        },
      },
    });
    const sftp = await sftpOf(await logIn(door.port));
    const handle = await openNew(sftp, '/a.dng');
    await write(sftp, handle, bytesOf(10), 0);
    let isAnswered = false;
    const closed = close(sftp, handle).then(() => {
      isAnswered = true;
    });
    await eventually('the folder is asked', async () => isAsked);
    // Another question and its answer: whatever was sent before it has come.
    await asked((done) => sftp.stat('/', done));
    expect([isAnswered, folder.originals.length]).toEqual([false, 0]);
    release();
    await closed;
    expect(folder.originals).toHaveLength(1);
  });

  test('11.9 a client that never reads its answers is heard no more, and memory stays bounded', async () => {
    const { door, folder } = await open({ limits: { unsentBytesMax: 20_000, idleMs: 500 } });
    for (let count = 0; count < 300; count += 1)
      await folder.makeFolder(`/${String(count).padStart(200, 'n')}`);
    const client = await logIn(door.port);
    const sftp = await sftpOf(client);
    // ssh2 keeps its socket to itself; a client that does not read is one whose socket is paused.
    const { _sock: socket } = client as unknown as { _sock: Socket };
    socket.pause();
    for (let count = 0; count < 3000; count += 1) sftp.readdir('/', () => {});
    await eventually('it is sent off', async () => hall?.codes().includes('line.idle'));
    socket.destroy();
  });

  test('a full disk is told in words, and the door goes on', async () => {
    const { door, codes } = await open({ folder: { capacityBytes: 100_000 } });
    const sftp = await sftpOf(await logIn(door.port));
    const handle = await openNew(sftp, '/a.dng');
    await write(sftp, handle, bytesOf(120_000).subarray(0, 30_000), 0);
    await Promise.allSettled(
      [1, 2, 3, 4].map((block) => write(sftp, handle, bytesOf(30_000), block * 30_000)),
    );
    await expect(close(sftp, handle)).rejects.toThrow(/disk is full/);
    expect(codes()).toContain('line.disk-full');
    await asked((done) => sftp.stat('/', done));
  });

  test('11.13 the same file again takes over from a connection that has gone silent', async () => {
    const { door, folder } = await open({ limits: { giveWayMs: 50 } });
    const dead = await sftpOf(await logIn(door.port));
    const handle = await openNew(dead, '/a.dng');
    await write(dead, handle, bytesOf(10), 0);
    const alive = await sftpOf(await logIn(door.port));
    const again = await openNew(alive, '/a.dng');
    await write(alive, again, bytesOf(20), 0);
    await close(alive, again);
    expect(folder.read('/a.dng')).toHaveLength(20);
    expect(folder.ends).toEqual(['stalled', 'closed']);
    await expect(write(dead, handle, bytesOf(10), 10)).rejects.toThrow(/no such handle/);
  });

  test('7.1 closing the door ends what is under way', async () => {
    const { door, folder } = await open();
    const sftp = await sftpOf(await logIn(door.port));
    await write(sftp, await openNew(sftp, '/a.dng'), bytesOf(10), 0);
    await door.close();
    expect(folder.ends).toEqual(['stopping']);
    hall = null;
  });
});

describe('coming in', () => {
  const wrong = (port: number, username: string, password = 'wrong'): Promise<string> =>
    connectSsh2(port, { username, password }).then(
      () => 'came in',
      (error: Error) => error.message,
    );

  test('11.10 a wrong password and an unknown user are answered alike, and told to the log', async () => {
    const { door, codes } = await open();
    expect(await wrong(door.port, 'camera')).toBe(await wrong(door.port, 'nobody'));
    expect(codes().filter((code) => code === 'line.wrong-login')).toHaveLength(2);
  });

  test('11.10 the fourth wrong password of a connection is its last', async () => {
    const { door, codes } = await open();
    const client = new ssh2.Client();
    clients.push(client);
    let tries = 0;
    const ended = once(client, 'close');
    client.on('error', () => {});
    client.connect({
      host: '127.0.0.1',
      port: door.port,
      username: 'camera',
      authHandler: (_methods, _partial, next) => {
        tries += 1;
        next({ type: 'password', username: 'camera', password: `guess ${tries}` });
      },
    });
    await ended;
    expect(tries).toBe(4);
    expect(codes()).toContain('line.too-many-logins');
  });

  test('11.10 after twenty wrong passwords of an address the right one is not looked at either', async () => {
    const { door } = await open({ limits: { loginFailuresPerMinuteMax: 2 } });
    await wrong(door.port, 'camera');
    await wrong(door.port, 'camera');
    expect(await wrong(door.port, 'camera', 'right')).not.toBe('came in');
  });

  test('11.10 a known key comes in, another does not', async () => {
    const key = ed25519Pair();
    const other = ed25519Pair();
    const { door } = await open({ keys: [key.public] });
    const by = (privateKey: string): Promise<string> =>
      connectSsh2(door.port, { privateKey, authHandler: ['publickey'] }).then(
        (client) => {
          client.end();
          return 'came in';
        },
        (error: Error) => error.message,
      );
    expect(await by(key.private)).toBe('came in');
    expect(await by(other.private)).toMatch(/authentication methods failed/);
  });

  test('11.10 the tenth key that is offered is looked at, the eleventh is the end', async () => {
    const { door, codes } = await open({ limits: { keyOffersMax: 2 } });
    const keys = [1, 2, 3].map(() => ed25519Pair().private);
    const client = new ssh2.Client();
    clients.push(client);
    let offered = 0;
    const ended = once(client, 'close');
    client.on('error', () => {});
    client.connect({
      host: '127.0.0.1',
      port: door.port,
      username: 'camera',
      authHandler: (_methods, _partial, next) => {
        const key = keys[offered] ?? '';
        offered += 1;
        next({ type: 'publickey', username: 'camera', key });
      },
    });
    await ended;
    expect([offered, codes().includes('line.too-many-keys')]).toEqual([3, true]);
  });

  test('11.10 who never logs in is closed', async () => {
    const { door, codes } = await open({ limits: { loginMs: 50 } });
    const mute = connect(door.port, '127.0.0.1');
    await once(mute.resume(), 'close');
    expect(codes()).toContain('line.idle');
  });

  test('11.10 a logged-in client that says nothing is closed, and its file breaks off', async () => {
    const { door, folder } = await open({ limits: { idleMs: 100 } });
    const client = await logIn(door.port);
    const sftp = await sftpOf(client);
    await write(sftp, await openNew(sftp, '/a.dng'), bytesOf(10), 0);
    await once(client, 'close');
    expect(folder.ends).toEqual(['stalled']);
  });

  test('11.10 connections of one address: at the limit one is served, beyond it none', async () => {
    const { door, codes } = await open({ limits: { connectionsPerAddressMax: 2 } });
    await logIn(door.port);
    await logIn(door.port);
    expect(await wrong(door.port, 'camera', 'right')).not.toBe('came in');
    expect(codes()).toContain('line.too-many-connections');
  });

  test('what is not SSH is closed without a word of this computer', async () => {
    const { door } = await open();
    const stranger = connect(door.port, '127.0.0.1');
    stranger.write(`GET / HTTP/1.1\r\n${'x'.repeat(40_000)}`);
    expect(await allOf(stranger)).toMatch(/^(SSH-2\.0-Setside\r\n)?$/);
  });
});

describe('what is not there', () => {
  const ways = {
    shell: (client: Client) => asked((done) => client.shell(done)),
    command: (client: Client) => asked((done) => client.exec('id', done)),
    'another subsystem': (client: Client) => asked((done) => client.subsys('netconf', done)),
    'forwarding out': (client: Client) =>
      asked((done) => client.forwardOut('127.0.0.1', 1, '127.0.0.1', 22, done)),
    'forwarding in': (client: Client) => asked((done) => client.forwardIn('127.0.0.1', 0, done)),
    'a socket of the system': (client: Client) =>
      asked((done) => client.openssh_forwardOutStreamLocal('/run/x', done)),
  };

  test.each(Object.entries(ways))('11.11 no %s', async (_, way) => {
    const { door } = await open();
    const client = await logIn(door.port);
    await expect(way(client)).rejects.toThrow();
    await sftpOf(client);
  });

  test('11.11 sessions of one connection: four are opened, the fifth is not', async () => {
    const { door } = await open();
    const client = await logIn(door.port);
    for (let count = 0; count < 4; count += 1) await sftpOf(client);
    await expect(sftpOf(client)).rejects.toThrow();
  });

  test('11.12 SHA-1 and CBC are spoken with old cameras only', async () => {
    const old = {
      algorithms: {
        kex: ['diffie-hellman-group14-sha1'],
        cipher: ['aes128-cbc'],
        hmac: ['hmac-sha1'],
        serverHostKey: ['ssh-rsa'],
      },
    } as const;
    // The client's type asks for lists it may change.
    const wish = structuredClone(old) as unknown as Parameters<typeof connectSsh2>[1];
    const { door } = await open();
    await expect(connectSsh2(door.port, wish)).rejects.toThrow(/no matching/);
    await door.close();
    const { door: lenient } = await open({
      oldCameras: true,
      hostKeys: [makeHostKey('ed25519'), makeHostKey('rsa')],
    });
    await sftpOf(await logIn(lenient.port, wish));
  });
});

test('11.5 a put that a person interrupts is closed in order all the same; structure tells it from a whole one', async () => {
  const { door, folder, codes } = await open({ folder: { expectedBytes: () => 8_000_000 } });
  const ssh = new OpenSsh(door.port);
  try {
    const file = ssh.file('a.dng', bytesOf(8_000_000));
    await ssh.sftp(`put ${file}`, ['-l', '20000'], undefined, (child) => {
      void eventually('it is arriving', async () => folder.arriving > 0).then(() => child.kill('SIGINT'));
    });
    await eventually('it has ended', async () => codes().includes('line.upload-broken-off'));
    expect(folder.originals).toHaveLength(0);
  } finally {
    ssh.remove();
  }
});

async function allOf(socket: Socket): Promise<string> {
  let text = '';
  socket.on('data', (chunk: Buffer) => {
    text += chunk.toString('latin1');
  });
  socket.on('error', () => {});
  await once(socket, 'close');
  return text;
}
