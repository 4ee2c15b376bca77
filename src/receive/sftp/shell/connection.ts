import type { Socket } from 'node:net';
import ssh2, { type AuthContext, type Connection, type ServerChannel, type Session } from 'ssh2';
import type { Finding } from '../../../facts/index.ts';
import type { ArrivalEnd } from '../../core/camera-folder.ts';
import type { AdmittedCamera, DismissReason, LineReport, ReportLine } from '../../core/door-keeper.ts';
import { plainAddress } from '../../shell/addresses.ts';
import type { algorithmsFor } from './algorithms.ts';
import { LogIn, type LogInSetting } from './log-in.ts';
import { type ChannelSetting, SftpChannel } from './sftp-channel.ts';

/** What all connections of one door share. */
export interface DoorSetting extends LogInSetting, ChannelSetting {
  readonly secrecy: ReturnType<typeof algorithmsFor>;
}

/** Keep-alive questions without an answer before a client counts as gone; the interval is in the limits. */
const keepAlivesMax = 3;

/**
 * One client at the SFTP door: SSH by ssh2, of which only log-ins and the subsystem `sftp` are taken up. Shells,
 * commands, forwarding, agents and X11 have no listener here, and what has no listener ssh2 refuses.
 */
export class SshConnection {
  /** Settles once the socket is closed and nothing of this client is under way any more. Never rejects. */
  readonly closed: Promise<void>;
  readonly #socket: Socket;
  readonly #address: string;
  /** The address the client reached us by. */
  readonly #local: string;
  readonly #number: number;
  readonly #setting: DoorSetting;
  readonly #tell: ReportLine;
  readonly #sessions = new Set<SftpChannel>();
  readonly #logIn: LogIn;
  #client: Connection | null = null;
  #camera: AdmittedCamera | null = null;
  #patience: NodeJS.Timeout;
  #isLeaving = false;

  constructor(socket: Socket, number: number, setting: DoorSetting, report: ReportLine) {
    const { limits } = setting;
    this.#socket = socket;
    this.#address = plainAddress(socket.remoteAddress);
    this.#number = number;
    this.#setting = setting;
    this.#tell = report;
    this.#logIn = new LogIn(setting, this.#address, (finding) => this.#report('refused', finding));
    this.#patience = setTimeout(() => this.#outOfPatience(), limits.loginMs);
    this.closed = new Promise((resolve) => {
      socket.on('close', () => this.#gone().then(resolve));
    });
    this.#local = plainAddress(socket.localAddress);
    const args = { address: this.#address, local: this.#local };
    this.#report('connected', { code: 'line.connected', args });
    this.#speakSsh();
    // Behind ssh2's own listener, so that what it made of the bytes is already counted.
    socket.on('data', () => this.#watchBounds());
    socket.on('drain', () => this.#goOn());
  }

  /** Who is logged in, or null. */
  get camera(): string | null {
    return this.#camera?.name ?? null;
  }

  /** Ends what is under way and closes, telling the client. */
  stop(end: ArrivalEnd): void {
    for (const session of this.#sessions) session.end(end);
    this.#leave();
  }

  /** The same for a camera that may not stay. */
  dismiss(why: DismissReason): void {
    const { camera } = this;
    if (camera !== null) this.#report('note', { code: 'line.dismissed', args: { camera, why } });
    this.stop('dismissed');
  }

  /** A server of ssh2 for this one client, so that its events need no other way back to the socket. */
  #speakSsh(): void {
    const { secrecy, limits } = this.#setting;
    const server = new ssh2.Server(
      {
        hostKeys: secrecy.hostKeys,
        algorithms: secrecy.algorithms,
        ident: 'Setside',
        keepaliveInterval: limits.keepAliveMs,
        keepaliveCountMax: keepAlivesMax,
      },
      (client) => this.#meet(client),
    );
    server.injectSocket(this.#socket);
  }

  #meet(client: Connection): void {
    this.#client = client;
    // What the client did wrong in SSH ends its connection; ssh2 has closed the socket by then.
    client.on('error', () => this.#leave());
    client.on('authentication', (attempt) => {
      this.#answerLogIn(attempt).catch(() => this.#leave());
    });
    client.on('session', (accept, reject) => {
      if (this.#camera === null || this.#sessions.size >= this.#setting.limits.sessionsMax) reject();
      else this.#openSession(accept(), this.#camera);
    });
  }

  async #answerLogIn(attempt: AuthContext): Promise<void> {
    const verdict = await this.#logIn.weigh(attempt);
    if (this.#isLeaving) return;
    switch (verdict.kind) {
      case 'admitted':
        this.#welcome(verdict.camera, attempt);
        break;
      case 'key-known':
        // With no signature yet this asks for one (SSH_MSG_USERAUTH_PK_OK).
        attempt.accept();
        break;
      case 'refused':
        attempt.reject(['publickey', 'password']);
        break;
      case 'sent-off':
        this.#leave();
        break;
    }
  }

  #welcome(camera: AdmittedCamera, attempt: AuthContext): void {
    this.#camera = camera;
    this.#report('logged-in', {
      code: 'line.logged-in',
      args: { user: attempt.username.slice(0, 64), address: this.#address, local: this.#local },
    });
    this.#restart(this.#setting.limits.idleMs);
    attempt.accept();
  }

  /** `sftp` is taken as a plain channel and spoken here: ssh2's own reading of it has no back-pressure. */
  #openSession(session: Session, camera: AdmittedCamera): void {
    session.on('subsystem', (accept, reject, { name }) => {
      if (name !== 'sftp') reject();
      else this.#openSftp(accept(), camera);
    });
  }

  #openSftp(channel: ServerChannel, camera: AdmittedCamera): void {
    const { unsentBytesMax } = this.#setting.limits;
    const sftp = new SftpChannel(channel, camera, this.#setting, {
      heard: () => this.#patience.refresh(),
      report: (finding) => this.#report('note', withAddress(finding, this.#address)),
      takesAnswers: () => this.#socket.writableLength < unsentBytesMax,
    });
    this.#sessions.add(sftp);
    sftp.over.then(() => this.#sessions.delete(sftp));
  }

  #goOn(): void {
    for (const session of this.#sessions) session.goOn();
  }

  /** A client that never takes what SSH itself answers, or sends beyond its window, is no client. */
  #watchBounds(): void {
    const { beyondWindowBytesMax } = this.#setting.limits;
    const unread = [...this.#sessions].reduce((sum, session) => sum + session.unreadBytes, 0);
    if (this.#socket.writableLength > beyondWindowBytesMax || unread > beyondWindowBytesMax) {
      this.#socket.destroy();
    }
  }

  #outOfPatience(): void {
    this.#report('note', { code: 'line.idle', args: { address: this.#address } });
    this.stop('stalled');
  }

  #restart(ms: number): void {
    clearTimeout(this.#patience);
    this.#patience = setTimeout(() => this.#outOfPatience(), ms);
  }

  /** Says goodbye, and does not wait long for the client to take it. */
  #leave(): void {
    if (this.#isLeaving) return;
    this.#isLeaving = true;
    clearTimeout(this.#patience);
    const { lingerMs } = this.#setting.limits;
    const ended = Promise.all([...this.#sessions].map((session) => session.over));
    ended.then(() => {
      if (this.#client === null) this.#socket.destroy();
      else this.#client.end();
      const linger = setTimeout(() => this.#socket.destroy(), lingerMs);
      this.#socket.on('close', () => clearTimeout(linger));
    });
  }

  async #gone(): Promise<void> {
    this.#isLeaving = true;
    clearTimeout(this.#patience);
    await Promise.all([...this.#sessions].map((session) => session.over));
    this.#report('disconnected', { code: 'line.disconnected', args: { address: this.#address } });
  }

  #report(change: LineReport['change'], finding: Finding): void {
    const camera = this.#camera?.name ?? null;
    this.#tell({ camera, address: this.#address, connection: this.#number, change, finding });
  }
}

function withAddress({ code, args }: Finding, address: string): Finding {
  return { code, args: { address, ...args } };
}
