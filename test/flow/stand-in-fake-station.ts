import { createServer, type Server, type Socket } from 'node:net';

/**
 * The least FTP server that the stand-in can upload to: reply codes after RFC 959 section 5.4, EPSV after RFC 2428,
 * SIZE after RFC 3659. Not the station: it holds files in memory and lets a test look at every command.
 */
export interface FakeStation {
  readonly port: number;
  readonly files: ReadonlyMap<string, Buffer>;
  /** Commands in the order they came, passwords left out. */
  readonly commands: readonly string[];
  readonly connections: number;
  close(): Promise<void>;
}

interface Session {
  readonly control: Socket;
  dataPort: Server | null;
  data: Promise<Socket> | null;
}

export async function startFakeStation(password = 'secret'): Promise<FakeStation> {
  const files = new Map<string, Buffer>();
  const folders = new Set(['/']);
  const commands: string[] = [];
  const sockets = new Set<Socket>();
  let connections = 0;

  const server = createServer((control) => {
    connections++;
    sockets.add(control);
    control.on('error', () => {});
    const session: Session = { control, dataPort: null, data: null };
    const say = (line: string): void => void control.write(`${line}\r\n`);
    say('220 ready');
    let pending = '';
    let turn = Promise.resolve();
    control.on('data', (bytes) => {
      pending += bytes.toString('latin1');
      for (let end = pending.indexOf('\r\n'); end >= 0; end = pending.indexOf('\r\n')) {
        const line = pending.slice(0, end);
        pending = pending.slice(end + 2);
        turn = turn.then(() => answer(session, line, say));
      }
    });
  });

  async function answer(session: Session, line: string, say: (line: string) => void): Promise<void> {
    const [verb = '', argument = ''] = [line.split(' ')[0]?.toUpperCase(), line.slice(line.indexOf(' ') + 1)];
    commands.push(verb === 'PASS' ? 'PASS' : line);
    if (verb === 'USER') return say('331 password');
    if (verb === 'PASS') return say(argument === password ? '230 in' : '530 not logged in');
    if (verb === 'TYPE' || verb === 'STRU' || verb === 'OPTS' || verb === 'NOOP') return say('200 ok');
    if (verb === 'MKD') {
      if (folders.has(argument)) return say('550 exists');
      folders.add(argument);
      return say(`257 "${argument}"`);
    }
    if (verb === 'SIZE') {
      const held = files.get(argument);
      return say(held === undefined ? '550 no such file' : `213 ${held.length}`);
    }
    if (verb === 'EPSV') return say(`229 entering (|||${await openDataPort(session)}|)`);
    if (verb === 'STOR' || verb === 'APPE') return await take(session, verb, argument, say);
    return say('502 not here');
  }

  function openDataPort(session: Session): Promise<number> {
    const port = createServer();
    session.dataPort = port;
    session.data = new Promise((resolve) => {
      port.once('connection', (socket) => {
        sockets.add(socket);
        resolve(socket);
      });
    });
    return new Promise((resolve) => {
      port.listen(0, '127.0.0.1', () => resolve(portOf(port)));
    });
  }

  async function take(
    session: Session,
    verb: 'STOR' | 'APPE',
    path: string,
    say: (line: string) => void,
  ): Promise<void> {
    const data = await session.data;
    if (data === null) return say('425 no data connection');
    say('150 go on');
    const pieces: Buffer[] = verb === 'APPE' ? [files.get(path) ?? Buffer.alloc(0)] : [];
    data.on('data', (piece) => pieces.push(piece));
    const whole = await new Promise<boolean>((resolve) => {
      data.once('end', () => resolve(true));
      data.once('error', () => resolve(false));
    });
    data.destroy();
    session.dataPort?.close();
    files.set(path, Buffer.concat(pieces));
    say(whole ? '226 kept' : '426 broke off');
  }

  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    port: portOf(server),
    files,
    commands,
    get connections() {
      return connections;
    },
    close: async () => {
      for (const socket of sockets) socket.destroy();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}

function portOf(server: Server): number {
  const address = server.address();
  return typeof address === 'object' && address !== null ? address.port : 0;
}
