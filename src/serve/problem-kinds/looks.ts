import { jobLimits } from '../../job/index.ts';
import type { WebProblem } from './web-problem.ts';

/** Looks and what is drawn with them. */
export const looksProblems = {
  'no-look': {
    status: 400,
    title: 'No look of this hash is kept, or the frame takes none',
    cure: 'See /api/v1/looks for those that are kept. A picture that came finished, such as a JPEG without its raw, takes no look: let the camera send raws.',
  },
  'no-such-look': {
    status: 400,
    title: 'No look of this id is kept',
    cure: 'See /api/v1/looks for those that are.',
  },
  'bad-look': {
    status: 422,
    title: 'This is no look that can be read',
    cure: 'See docs/look.schema.json for what a look may say.',
  },
  'too-many-looks': {
    status: 409,
    title: `More than ${jobLimits.looksMax} versions of looks would be kept`,
    cure: 'Use one of those that are there.',
  },
} as const satisfies Record<string, WebProblem>;
