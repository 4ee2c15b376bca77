import { epochMsToRfc3339 } from '../../base/index.ts';
import type { Station } from '../../contract/index.ts';
import { cameraSheetPdf } from '../../paper/index.ts';
import { cameraForms, type SheetWayIn, sheetLabels } from '../../words/index.ts';

/** The sheet of one camera as PDF, null where there is none of that name. `wayIn`: what the line check knows of the way to the station. */
export async function cameraSheet(
  name: string,
  station: Omit<Station, 'now' | 'disk' | 'incoming'>,
  wayIn: SheetWayIn,
  atMs: number,
): Promise<Uint8Array | null> {
  const camera = station.cameras.find((each) => each.name === name);
  if (camera === undefined) return null;
  // The day alone, as it is in the station's time zone nobody can mistake it for another.
  const written = sheetLabels.written(epochMsToRfc3339(atMs).slice(0, 10), station.version);
  return cameraSheetPdf({ camera: name, forms: cameraForms(camera, station, wayIn), written, atMs });
}
