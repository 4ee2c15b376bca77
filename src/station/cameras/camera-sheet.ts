import type { Station } from '../../contract/index.ts';
import { cameraForms, type SheetWayIn, sheetLabels } from '../../words/index.ts';

/** In this computer's own time, to the minute: after a new password two sheets of one day are told apart. */
const hereAndNow = new Intl.DateTimeFormat('en-GB', {
  ...{ day: 'numeric', month: 'short', year: 'numeric' },
  ...{ hour: '2-digit', minute: '2-digit', hourCycle: 'h23', timeZoneName: 'short' },
});

/** The sheet of one camera as PDF, null where there is none of that name. `wayIn`: what the line check knows of the way to the station. */
export async function cameraSheet(
  name: string,
  station: Omit<Station, 'now' | 'disk' | 'incoming'>,
  wayIn: SheetWayIn,
  atMs: number,
): Promise<Uint8Array | null> {
  const camera = station.cameras.find((each) => each.name === name);
  if (camera === undefined) return null;
  // What makes papers is large and seldom wanted: a station begins without it.
  const { cameraSheetPdf } = await import('../../paper/index.ts');
  const written = sheetLabels.written(hereAndNow.format(atMs), station.version);
  return cameraSheetPdf({ camera: name, forms: cameraForms(camera, station, wayIn), written, atMs });
}
