import { createHash } from 'node:crypto';
import type { SFTPWrapper, Stats } from 'ssh2';
import { sftpPieceBytes, sftpPiecesMax } from '../core/limits.ts';
import type { FileToSend, SendWatch } from '../open-place.ts';
import { openLocal, piecesOf } from '../read-file.ts';
import { asked, type SftpLine } from './line.ts';

/**
 * Writes the file there, several pieces under way at a time, and goes on with what an earlier attempt left: not quite at its end, since
 * pieces that were under way when the line was cut may have left holes.
 */
export async function writeThere(
  line: SftpLine,
  path: string,
  file: FileToSend,
  { signal, progress }: SendWatch,
): Promise<void> {
  const { sftp } = line;
  const source = await openLocal(file);
  try {
    const held = await asked<Stats>((done) => sftp.stat(path, done)).then(
      ({ size }) => (size > file.bytes ? 0 : size),
      () => 0,
    );
    const from = Math.max(0, held - sftpPieceBytes * sftpPiecesMax);
    const handle = await asked<Buffer>((done) => sftp.open(path, held > 0 ? 'r+' : 'w', done));
    progress(from);
    const underWay = new Set<Promise<void>>();
    let written = from;
    try {
      for await (const { start, bytes } of piecesOf(source, file, sftpPieceBytes)) {
        signal.throwIfAborted();
        if (start + bytes.length <= from) continue;
        const writing = asked<void>((done) => sftp.write(handle, bytes, 0, bytes.length, start, done)).then(
          () => {
            underWay.delete(writing);
            written += bytes.length;
            progress(Math.min(written, file.bytes));
          },
        );
        // Who waits for it hears of the failure; until then nobody may be told that it is unheard of.
        writing.catch(() => {});
        underWay.add(writing);
        if (underWay.size >= sftpPiecesMax) await Promise.race([Promise.race(underWay), line.lost]);
      }
      await Promise.race([Promise.all(underWay), line.lost]);
      await sync(line, handle);
    } finally {
      // The line may be gone, and then nobody answers.
      await Promise.race([asked<void>((done) => sftp.close(handle, done)), line.lost]).catch(() => {});
    }
  } finally {
    await source.close();
  }
}

/** `fsync@openssh.com` where the server has it: what is read back then also lies on its disk. */
async function sync(line: SftpLine, handle: Buffer): Promise<void> {
  if (!line.can.sync) return;
  await new Promise<void>((resolve) => {
    try {
      line.sftp.ext_openssh_fsync(handle, (failure) => {
        if (failure) line.can.sync = false;
        resolve();
      });
    } catch {
      // ssh2 throws where the server does not have it.
      line.can.sync = false;
      resolve();
    }
    line.lost.catch(() => resolve());
  });
}

/** SHA-256 of what lies there, hexadecimal: every byte comes back, in order, several pieces asked for at a time. */
export async function hashThere(sftp: SFTPWrapper, path: string, bytes: number): Promise<string> {
  const handle = await asked<Buffer>((done) => sftp.open(path, 'r', done));
  try {
    const hash = createHash('sha256');
    const asking: Promise<Buffer>[] = [];
    let next = 0;
    const ask = (): void => {
      const start = next;
      next = Math.min(bytes, start + sftpPieceBytes);
      const reading = read(sftp, handle, start, next - start);
      reading.catch(() => {});
      asking.push(reading);
    };
    while (next < bytes && asking.length < sftpPiecesMax) ask();
    for (let first = asking.shift(); first !== undefined; first = asking.shift()) {
      hash.update(await first);
      if (next < bytes) ask();
    }
    return hash.digest('hex');
  } finally {
    sftp.close(handle, () => {});
  }
}

/** So many bytes, or fewer where the file ends before; a server may give them in several answers (section 6.4). */
async function read(sftp: SFTPWrapper, handle: Buffer, start: number, bytes: number): Promise<Buffer> {
  const piece = Buffer.alloc(bytes);
  let got = 0;
  while (got < bytes) {
    const came = await asked<number>((done) =>
      sftp.read(handle, piece, got, bytes - got, start + got, (failure, count) => done(failure, count)),
    );
    if (came === 0) break;
    got += came;
  }
  return piece.subarray(0, got);
}
