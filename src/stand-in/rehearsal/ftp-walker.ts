import { Readable } from 'node:stream';
import type { TLSSocket } from 'node:tls';
import { Client, enterPassiveModeIPv6 } from 'basic-ftp';
import { rehearsalPictureName } from '../../facts/index.ts';
import type { RehearsalOptions, Seen, Walker } from './shapes.ts';
import { testPicture } from './test-picture.ts';

/** The last four numbers pairwise: RFC 959 section 4.1.2, 227 (h1,h2,h3,h4,p1,p2). */
const passiveReply = /(\d{1,3}),(\d{1,3}),(\d{1,3}),(\d{1,3}),\d{1,3},\d{1,3}/;

/** FTP and FTPS, command by command as a camera gives them, passive. */
export function ftpWalker({ host, port, user, password, secure }: RehearsalOptions, stepMs: number): Walker {
  const client = new Client(stepMs);
  let ends = { local: '', remote: host, told: null as string | null };
  const tls = { host, ...(secure.ca === null ? {} : { ca: secure.ca }) };
  const meet = async (): Promise<Seen> => {
    await (secure.how === 'implicit'
      ? client.connectImplicitTLS(host, port, tls)
      : client.connect(host, port));
    const { localAddress = '', remoteAddress = host } = client.ftp.socket;
    ends = { ...ends, local: plain(localAddress), remote: plain(remoteAddress) };
    return { code: 'greeted', args: {} };
  };
  const protect = async (): Promise<Seen> => {
    // biome-ignore lint/correctness/useHookAtTopLevel: a command of the FTP client, no hook of the page
    if (secure.how === 'explicit') await client.useTLS(tls);
    const socket = client.ftp.socket as TLSSocket;
    return { code: 'secured', args: { version: socket.getProtocol() ?? '' } };
  };
  const logIn = async (): Promise<Seen> => {
    await client.login(user, password);
    await client.useDefaultSettings();
    return { code: 'logged-in', args: { user } };
  };
  /** A listing comes by the data connection and leaves nothing behind. */
  const data = async (): Promise<Seen> => {
    const { message } = await client.sendIgnoringError('PASV');
    // EPSV names a port alone (RFC 2428): it is tried where the station was reached, whatever address PASV told.
    client.prepareTransfer = enterPassiveModeIPv6;
    ends = { ...ends, told: passiveReply.exec(message)?.slice(1, 5).join('.') ?? null };
    await client.list();
    return { code: 'data-open', args: {} };
  };
  const send = async (): Promise<Seen> => {
    const picture = await testPicture();
    const began = performance.now();
    await client.uploadFrom(Readable.from([Buffer.from(picture)]), `/${rehearsalPictureName}`);
    return {
      code: 'sent',
      args: { bytes: picture.length, ms: performance.now() - began, name: rehearsalPictureName },
    };
  };
  return {
    steps: [
      ['greet', meet],
      ...(secure.how === 'no' ? [] : ([['secure', protect]] as const)),
      ['log-in', logIn],
      ['data', data],
      ['send', send],
    ],
    ends: () => ({ ...ends, hostKey: null }),
    close: () => client.close(),
  };
}

/** An IPv4 address that came by a socket for both (RFC 4291 section 2.5.5.2). */
function plain(address: string): string {
  return address.replace(/^::ffff:/, '');
}
