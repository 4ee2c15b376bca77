import type { CameraEntry } from '../contract/index.ts';
import { type Camera, type CameraKey, cameraKeyOf } from '../station/index.ts';
import { doorNames } from '../words/index.ts';
import { printJson, printLine } from './output.ts';

/** What only a running station knows of a camera. */
export type CameraNow = Pick<CameraEntry, 'watched' | 'connected'>;

/** A camera for a person, or as a document: how it may come in, and by which keys, told by fingerprint. */
export function showCamera(camera: Camera, json: boolean, now: CameraNow | null = null): void {
  const keys = camera.keys.map(cameraKeyOf);
  if (!json) {
    for (const line of cameraLines(camera, keys, now)) printLine(line, false);
    return;
  }
  const { name, user, password, allow, protocols, rowTimeUs, ended } = camera;
  printJson({ name, user, password, allow, protocols, keys, rowTimeUs, ended, ...(now ?? {}) });
}

/** The camera in one line, then its keys and folders, each in a line of its own. */
export function cameraLines(
  { name, user, password, allow, protocols, rowTimeUs, ended }: Camera,
  keys: readonly CameraKey[],
  now: CameraNow | null,
): string[] {
  const by = protocols.map((door) => doorNames[door]).join(', ');
  const from = allow.length === 0 ? 'from everywhere' : `from ${allow.join(', ')}`;
  const how =
    protocols.length === 0
      ? 'by no door, only by a watched folder'
      : `user ${user}  password ${password}  by ${by}  ${from}`;
  return [
    `${name}  ${how}${ended ? '  (ended: may not come in)' : ''}${now?.connected === true && protocols.length > 0 ? '  (connected)' : ''}`,
    ...(rowTimeUs === null ? [] : [`    rows    ${rowTimeUs} µs from one to the next`]),
    ...keys.map((key) => `    key     ${keyWords(key)}`),
    ...(now?.watched ?? []).map(
      (folder) => `    folder  ${folder}  (${ended ? 'not watched while it is ended' : 'watched'})`,
    ),
  ];
}

function keyWords({ kind, fingerprint, comment }: CameraKey): string {
  if (kind === 'none') return `${fingerprint}  no public key, lets nobody in: drop it`;
  return [fingerprint, kind, comment].filter((word) => word !== '').join('  ');
}
