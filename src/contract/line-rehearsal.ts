import { z } from 'zod';
import { finding } from './primitives.ts';

export const lineRehearsal = z
  .object({
    bytes: z.number().int().nonnegative().describe('What came; nothing of it is kept'),
    seconds: z.number().nonnegative().describe('From the head of the request to its last byte'),
    findings: z.array(finding).describe('What that says about the cameras’ way: codes rehearsal.*'),
  })
  .meta({
    id: 'LineRehearsal',
    description: 'The way tried by a device with a link, such as a phone beside the camera',
  });

export type LineRehearsal = z.infer<typeof lineRehearsal>;
