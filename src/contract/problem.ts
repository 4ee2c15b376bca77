import { z } from 'zod';
import { marks } from '../facts/index.ts';
import { act } from './choices.ts';
import { finding } from './primitives.ts';

/** RFC 9457 problem details; `code` is ours and stable, `cure` says what a person can do. */
export const problem = z
  .object({
    type: z.string().describe('`about:blank`: the kind is told by `code`'),
    title: z.string(),
    status: z.number().int(),
    detail: z.string(),
    code: z.string(),
    cure: z.string().nullable().describe('What a person can do about it'),
    finding: finding.optional().describe('Where the station itself has the reason as a finding'),
    now: z
      .object({
        version: z.number().int(),
        mark: z.enum(marks).optional().describe('Of a frame'),
        shot: z.string().nullable().optional().describe('Of a frame'),
        act: act.nullable().describe('What was done to it last since the station started, and by whom'),
      })
      .optional()
      .describe('How what somebody else changed meanwhile stands now'),
    errors: z
      .array(z.object({ where: z.string(), detail: z.string() }))
      .optional()
      .describe('Each value that was not allowed: where it stood, e.g. `querystring/limit`, and why'),
  })
  .meta({ id: 'Problem', description: 'RFC 9457 problem details' });
export type Problem = z.infer<typeof problem>;
