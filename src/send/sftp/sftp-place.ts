import type { SFTPWrapper } from 'ssh2';
import { SendFailure } from '../core/failure.ts';
import { joined, partName } from '../core/names.ts';
import type { FileToSend, OpenPlace, Proof, SendWatch, Sent } from '../open-place.ts';
import { answerFailure, sftpStatus, statusOf } from './failures.ts';
import { asked, type SftpAddress, type SftpLine } from './line.ts';
import { hashThere, writeThere } from './pieces.ts';

/**
 * A folder of an SFTP server (version 3, draft-ietf-secsh-filexfer-02), over a connection that is open. A file comes under a name of its
 * own, is read back, and then gets the one it is to have.
 */
export class SftpPlace implements OpenPlace {
  readonly #line: SftpLine;
  readonly #address: SftpAddress;
  readonly #folders: readonly string[];
  #foldersMade = false;

  constructor(line: SftpLine, address: SftpAddress, below: readonly string[]) {
    this.#line = line;
    this.#address = address;
    this.#folders = below.map((_, index) => joined(address.path, ...below.slice(0, index + 1)));
  }

  async send(file: FileToSend, watch: SendWatch): Promise<Sent> {
    try {
      return await Promise.race([this.#send(file, watch), this.#line.lost]);
    } catch (thrown) {
      watch.signal.throwIfAborted();
      if (statusOf(thrown) === sftpStatus.failure && (await this.#isFull(file.bytes))) {
        throw new SendFailure('stop', 'send.disk-full', {}, thrown);
      }
      throw answerFailure(thrown, file.name, { host: this.#address.host, folder: this.#folder });
    }
  }

  async letGo(file: FileToSend): Promise<void> {
    await this.#remove(this.#pathOf(partName(file.name, file.sha256)));
  }

  async remove(name: string): Promise<void> {
    await Promise.race([this.#remove(this.#pathOf(name)), this.#line.lost]);
  }

  close(): void {
    this.#line.close();
  }

  get #folder(): string {
    return this.#folders.at(-1) ?? this.#address.path;
  }

  get #sftp(): SFTPWrapper {
    return this.#line.sftp;
  }

  #pathOf(name: string): string {
    return joined(this.#folder, name);
  }

  async #send(file: FileToSend, watch: SendWatch): Promise<Sent> {
    await this.#makeFolders();
    const path = this.#pathOf(file.name);
    const part = this.#pathOf(partName(file.name, file.sha256));
    const { user, host, port } = this.#address;
    const at = port === 22 ? host : `${host}:${port}`;
    const where = `sftp://${user}@${at}${path.startsWith('/') ? path : `/~/${path}`}`;
    const before = await this.#proofOf(path, file);
    if (before !== null) {
      await this.#remove(part);
      return { where, proof: before };
    }
    await writeThere(this.#line, part, file, watch);
    const proof = await this.#hashOf(part, file);
    if (proof === null) {
      await this.#remove(part);
      throw new SendFailure('again', 'send.other-bytes', { name: file.name });
    }
    // "It is an error if there already exists a file with the name specified by newpath": section 6.5.
    await asked<void>((done) => this.#sftp.rename(part, path, done)).catch(async (thrown: unknown) => {
      if ((await this.#proofOf(path, file)) === null) throw thrown;
      await this.#remove(part);
    });
    const found = await this.#sizeOf(path);
    if (found !== file.bytes) throw new SendFailure('again', 'send.other-bytes', { name: file.name });
    return { where, proof };
  }

  /** Where the folder that was named is not there, somebody mistyped it: only those below it are made. */
  async #makeFolders(): Promise<void> {
    if (this.#foldersMade) return;
    await asked((done) => this.#sftp.stat(this.#address.path, done));
    for (const folder of this.#folders) {
      const isThere = await this.#sizeOf(folder);
      if (isThere === null) await asked<void>((done) => this.#sftp.mkdir(folder, done));
    }
    this.#foldersMade = true;
  }

  /** How it is known that the file lies there already; null where nothing does. Rejects `send.name-taken` where something else does. */
  async #proofOf(path: string, file: FileToSend): Promise<Proof | null> {
    const size = await this.#sizeOf(path);
    if (size === null) return null;
    const proof = size === file.bytes ? await this.#hashOf(path, file) : null;
    // Of the same size and not readable is not known to be ours.
    if (proof === 'read-back') return proof;
    throw new SendFailure('file', 'send.name-taken', { name: file.name });
  }

  /** Null where the bytes there are others. A server that lets nobody read tells the size. */
  async #hashOf(path: string, file: FileToSend): Promise<Proof | null> {
    if ((await this.#sizeOf(path)) !== file.bytes) return null;
    try {
      return (await hashThere(this.#sftp, path, file.bytes)) === file.sha256 ? 'read-back' : null;
    } catch (thrown) {
      const status = statusOf(thrown);
      if (status === sftpStatus.permissionDenied || status === sftpStatus.unsupported) return 'size';
      throw thrown;
    }
  }

  /** Null where nothing is there. */
  async #sizeOf(path: string): Promise<number | null> {
    return asked<{ size: number }>((done) => this.#sftp.stat(path, done)).then(
      ({ size }) => size,
      (thrown: unknown) => {
        if (statusOf(thrown) === sftpStatus.noSuchFile) return null;
        throw thrown;
      },
    );
  }

  async #remove(path: string): Promise<void> {
    await asked<void>((done) => this.#sftp.unlink(path, done)).catch((thrown: unknown) => {
      if (statusOf(thrown) !== sftpStatus.noSuchFile) throw thrown;
    });
  }

  /** A server without room says "failure"; OpenSSH's also says how much there is. */
  async #isFull(wantedBytes: number): Promise<boolean> {
    try {
      const told = await Promise.race([
        asked<unknown>((done) => this.#sftp.ext_openssh_statvfs(this.#folder, done)),
        this.#line.lost,
      ]);
      const [blocks, size] = [figure(told, 'f_bavail'), figure(told, 'f_frsize')];
      return blocks !== null && size !== null && blocks * size < wantedBytes;
    } catch {
      return false;
    }
  }
}

function figure(told: unknown, name: string): number | null {
  if (typeof told !== 'object' || told === null) return null;
  const value: unknown = Reflect.get(told, name);
  return typeof value === 'number' || typeof value === 'bigint' ? Number(value) : null;
}
