/**
 * Names after DCF (CIPA DC-009): a folder of three figures and five letters, a file of four letters and four figures,
 * both counting. The counter never restarts with a day or a card; after 9999 it goes on at 0001 in the next folder.
 * All files of one frame have the same name but for the extension.
 */
export interface DcfName {
  /** `/DCIM/100SETSD` */
  readonly folder: string;
  /** `QMST0001`, without the extension. */
  readonly stem: string;
}

/** 0001 ... 9999; there is no 0000. */
export const filesPerFolder = 9999;
const foldersMin = 100;
const foldersMax = 999;

/** The name of the `ordinal`-th frame of a camera's life; ordinal 1 is QMST0001 in folder 100. */
export function dcfName(ordinal: number, prefix: string): DcfName {
  const index = Math.max(0, Math.floor(ordinal) - 1);
  const folders = foldersMax - foldersMin + 1;
  const folder = foldersMin + (Math.floor(index / filesPerFolder) % folders);
  const file = (index % filesPerFolder) + 1;
  return { folder: `/DCIM/${folder}SETSD`, stem: `${prefix}${String(file).padStart(4, '0')}` };
}
