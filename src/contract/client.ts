import { z } from 'zod';
import { copySpaceSides } from '../facts/index.ts';
import { frameId, name } from './fields.ts';

/** Of a shape of a delivery, such as 16 by 9. */
const side = z.number().int().min(1).max(100);

const clientCrop = z
  .union([
    z.strictObject({ delivery: name }).describe('What a specification that the job names cuts out'),
    z.strictObject({ width: side, height: side }).describe('A shape, as `4` by `5`'),
  ])
  .nullable()
  .describe('What of the picture lies under the mask; null: nothing, all of it is shown');

const job = z.string().min(1).max(200).describe('Code of the job; `unsorted` for frames of none');
const frame = frameId.nullable().describe('The frame held for the client; null: the newest is followed');
const copySpace = z
  .enum(copySpaceSides)
  .nullable()
  .describe(
    'The side that words will stand on, a third; null: what the delivery keeps free for them, if any',
  );

export const clientScreen = z.object({ job, frame, crop: clientCrop, copySpace }).meta({
  id: 'ClientScreen',
  description: 'What the client of a job is shown, on every device whose page is the client’s screen',
});

export const clientScreenList = z
  .object({
    screens: z.array(clientScreen).describe('Of jobs whose screens somebody has set since the start'),
  })
  .meta({ id: 'ClientScreenList', description: 'What the clients are shown' });

export const clientScreenChange = z
  .object({ job, frame, crop: clientCrop, copySpace })
  .partial({ frame: true, crop: true, copySpace: true })
  .strict()
  .meta({ id: 'ClientScreenChange', description: 'What it is to show; what is left out stays' });

export type ClientScreen = z.infer<typeof clientScreen>;
export type ClientScreenChange = z.infer<typeof clientScreenChange>;

/** Of a job whose screen nobody has set. */
export function plainClientScreen(code: string): ClientScreen {
  return { job: code, frame: null, crop: null, copySpace: null };
}
