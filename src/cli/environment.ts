import { delimiter } from 'node:path';
import { SetsideError } from '../base/index.ts';
import { parseBind, parsePort, parsePortRange, parseWatch, type StationWishes } from '../station/index.ts';

/**
 * `SETSIDE_HOME`, `SETSIDE_WEB`, `SETSIDE_LINKS`, `SETSIDE_FTP`, `SETSIDE_FTPS`, `SETSIDE_ENCRYPTED_ONLY`, `SETSIDE_SFTP`,
 * `SETSIDE_SFTP_OLD_CAMERAS`, `SETSIDE_PASSIVE`, `SETSIDE_BIND`; `SETSIDE_COPY`, `SETSIDE_WATCH` and `SETSIDE_CARD` as a PATH is written.
 * In a demo, where real frames are kept and come from is not taken from here.
 * Throws `bad-option` with the variable's name.
 */
export function environmentWishes(environment: NodeJS.ProcessEnv, demo: boolean): StationWishes {
  const {
    SETSIDE_HOME: home,
    SETSIDE_WEB: web,
    SETSIDE_LINKS: links,
    SETSIDE_FTP: ftp,
    SETSIDE_FTPS: ftps,
    SETSIDE_ENCRYPTED_ONLY: encryptedOnly,
    SETSIDE_SFTP: sftp,
    SETSIDE_SFTP_OLD_CAMERAS: oldCameras,
    SETSIDE_PASSIVE: passive,
    SETSIDE_BIND: bind,
    SETSIDE_COPY: copy,
    SETSIDE_WATCH: watch,
    SETSIDE_CARD: card,
  } = environment;
  return {
    ...(home && !demo ? { home } : {}),
    ...(web ? { web: parsePort(web, 'SETSIDE_WEB') } : {}),
    ...(links ? { links: parsePort(links, 'SETSIDE_LINKS') } : {}),
    ...(ftp ? { ftp: parsePort(ftp, 'SETSIDE_FTP') } : {}),
    ...(ftps ? { ftps: parsePort(ftps, 'SETSIDE_FTPS') } : {}),
    ...(encryptedOnly ? { encryptedOnly: yesOrNo(encryptedOnly, 'SETSIDE_ENCRYPTED_ONLY') } : {}),
    ...(sftp ? { sftp: parsePort(sftp, 'SETSIDE_SFTP') } : {}),
    ...(oldCameras ? { sftpOldCameras: yesOrNo(oldCameras, 'SETSIDE_SFTP_OLD_CAMERAS') } : {}),
    ...(passive ? { passive: parsePortRange(passive, 'SETSIDE_PASSIVE') } : {}),
    ...(bind ? { bind: parseBind(bind, 'SETSIDE_BIND') } : {}),
    ...(copy && !demo ? { copy: copy.split(delimiter) } : {}),
    ...(card && !demo ? { card: card.split(delimiter) } : {}),
    ...(watch && !demo
      ? { watch: watch.split(delimiter).map((text) => parseWatch(text, 'SETSIDE_WATCH')) }
      : {}),
  };
}

/** A word that is neither is refused: a slip must not leave a door in clear. */
function yesOrNo(text: string, name: string): boolean {
  if (text === 'true' || text === '1') return true;
  if (text === 'false' || text === '0') return false;
  throw new SetsideError('bad-option', `${name}: expected true or false, got "${text}"`, {
    details: { option: name },
    cure: 'Write true or false.',
  });
}
