import { z } from 'zod';

/** RFC 9457 problem details; `code` is ours and stable, `cure` says what a person can do. */
export const problem = z.object({
  type: z.string(),
  title: z.string(),
  status: z.number().int(),
  detail: z.string(),
  code: z.string(),
  cure: z.string().nullable(),
});
export type Problem = z.infer<typeof problem>;
