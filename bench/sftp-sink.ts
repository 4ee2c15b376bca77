import { closeSync, fdatasyncSync, openSync, writeSync } from 'node:fs';
import { basename, join } from 'node:path';
import { parentPort, workerData } from 'node:worker_threads';
import ssh2, { type SFTPWrapper } from 'ssh2';

/** The reference of `receive-sftp`: ssh2's own SFTP server; writes where the client says, syncs at the close. */
const folder = String((workerData as { folder: unknown }).folder);
const { STATUS_CODE } = ssh2.utils.sftp;
const key = ssh2.utils.generateKeyPairSync('ed25519').private;

const server = new ssh2.Server({ hostKeys: [key] }, (client) => {
  client.on('error', () => {});
  client.on('authentication', (attempt) => {
    if (attempt.method === 'password') attempt.accept();
    else attempt.reject(['password']);
  });
  client.on('session', (accept) => {
    accept().on('sftp', (open) => serve(open()));
  });
});
server.listen(0, '127.0.0.1', () => {
  const address = server.address();
  if (address !== null && typeof address === 'object') parentPort?.postMessage(address.port);
});

function serve(sftp: SFTPWrapper): void {
  const fileOf = (handle: Buffer): number => handle.readUInt32BE(0);
  sftp.on('REALPATH', (id) => sftp.name(id, [{ filename: '/', longname: '/', attrs: folderAttrs }]));
  const tell = (id: number, path: string): void => {
    if (path === '/') sftp.attrs(id, folderAttrs);
    else sftp.status(id, STATUS_CODE.NO_SUCH_FILE);
  };
  sftp.on('STAT', tell);
  sftp.on('LSTAT', tell);
  sftp.on('OPEN', (id, path) => {
    const handle = Buffer.alloc(4);
    handle.writeUInt32BE(openSync(join(folder, basename(path)), 'w'));
    sftp.handle(id, handle);
  });
  sftp.on('WRITE', (id, handle, offset, data) => {
    writeSync(fileOf(handle), data, 0, data.length, offset);
    sftp.status(id, STATUS_CODE.OK);
  });
  sftp.on('FSETSTAT', (id) => sftp.status(id, STATUS_CODE.OK));
  // ssh2 leaves the end of a session to its user, and the client waits for it.
  sftp.on('end', () => sftp.end());
  sftp.on('CLOSE', (id, handle) => {
    fdatasyncSync(fileOf(handle));
    closeSync(fileOf(handle));
    sftp.status(id, STATUS_CODE.OK);
  });
}

const folderAttrs = { mode: 0o040_755, uid: 0, gid: 0, size: 0, atime: 0, mtime: 0 };
