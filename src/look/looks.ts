import { type Look, lookSchema } from './schema.ts';

/** The look a job starts with: mid contrast, long soft shoulder, white three stops above grey. */
export const defaultLook: Look = lookSchema.parse({
  version: 2,
  title: 'Plain',
  description: 'Even contrast, soft highlights, no colour of its own.',
  curve: { pivot: 0.18, gamma: 1.3, toeEv: 4, shoulder: 1, whiteEv: 3 },
});

/** No look at all: scene light is shown as it is. */
export const neutralLook: Look = lookSchema.parse({
  version: 2,
  title: 'Neutral',
  description: 'Scene light as it is, cut at white.',
});
