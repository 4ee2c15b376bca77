import {
  expectedFiles,
  frameShares,
  judgements,
  marks,
  purposes,
  questions,
  scaleTellers,
  speakerKinds,
  targetEditions,
  toleranceNames,
} from '../../facts/index.ts';
import type { Choice } from './choice-records.ts';
import {
  type Check,
  exactly,
  type Fields,
  id,
  label,
  listOf,
  moment,
  oneOf,
  orLeftOut,
  orNull,
  sha256,
  text,
  whole,
  words,
  yesOrNo,
} from './field-checks.ts';

/** Shots that one record may hold: those of version 1, and an order. */
const shotsMax = 500;
const baselinesMax = 50;
const orderedFramesMax = 500;
const targetsMax = 100;
const lastNumbersMax = 50;
const explainedMax = 200;

/** RFC 3339 full-date by its form: which days there are, the rules know. */
const day: Check = (value) => typeof value === 'string' && /^\d{4}-\d{2}-\d{2}$/.test(value);
const notes: Check = text(2000);
const question: Check = oneOf(...questions);
const figure: Check = (value) => moment(value) && Number(value) >= 0;
const limits: Check = exactly({ good: figure, bad: figure });
const tolerances: Check = (value) =>
  typeof value === 'object' &&
  value !== null &&
  Object.entries(value).every(
    ([name, entry]) => toleranceNames.some((known) => known === name) && limits(entry),
  );

/** Version 1 wrote `{id, name}` and read whatever else stood there. */
const namedShots: Check = listOf((shot) => {
  if (typeof shot !== 'object' || shot === null) return false;
  return 'id' in shot && label(shot.id) && 'name' in shot && text(200)(shot.name);
}, shotsMax);

const shot: Check = exactly({
  id: label,
  name: label,
  description: notes,
  camera: orNull(label),
  look: orNull(label),
  lookId: orLeftOut(id),
  layout: orNull(label),
  reference: orNull(label),
  baselines: listOf(exactly({ frame: id, fromMs: moment }), baselinesMax),
  heroes: whole,
  selects: whole,
  agreement: yesOrNo,
  requires: listOf(question, questions.length),
  mutes: listOf(question, questions.length),
  tolerances,
  hidden: yesOrNo,
  order: orLeftOut(listOf(id, orderedFramesMax)),
});

const three: Check = (value) => listOf(moment, 3)(value) && Array.isArray(value) && value.length === 3;
const nine: Check = (value) => listOf(moment, 9)(value) && Array.isArray(value) && value.length === 9;
const errors: Check = exactly({
  mean: figure,
  percentile90: figure,
  max: figure,
  maxPatch: whole,
  lightness: figure,
  chroma: figure,
});
const target: Check = exactly({
  frame: id,
  camera: label,
  fromMs: moment,
  profile: orNull(
    exactly({ toXyz: nine, multipliers: orNull(three), fit: errors, leaveOneOut: errors, patches: whole }),
  ),
});

/**
 * JSON as the room `look` reads it, which knows every member; here only that it can be written and is no longer than a text
 * of a look may be.
 */
const lookTextMax = 65_536;
const lookDocument: Check = (value) =>
  typeof value === 'object' &&
  value !== null &&
  !Array.isArray(value) &&
  JSON.stringify(value).length <= lookTextMax;
const length: Check = (value) => moment(value) && Number(value) > 0;
const scale: Check = exactly({
  shot: label,
  frame: id,
  camera: label,
  by: oneOf(...scaleTellers),
  mm: length,
  px: length,
  longSidePx: length,
  focalLengthMm: orNull(length),
});

const lastNumber: Check = exactly({
  camera: label,
  prefix: text(4),
  counter: (value) => whole(value) && value !== 0,
  by: label,
  atMs: moment,
});
const reason: Check = (value) => notes(value) && value !== '';
const explained: Check = exactly({ line: text(400), name: label, reason, atMs: moment });

/** Shares of the upright picture; the box has a size. */
const share: Check = (value) => typeof value === 'number' && value >= 0 && value <= 1;
const spot: Check = exactly({
  box: exactly({ left: share, top: share, right: share, bottom: share }),
  onward: yesOrNo,
});

const acceptance: Check = exactly({
  judgement: oneOf(...judgements.filter((judgement) => judgement !== 'good')),
  name: label,
  reason,
});

const said: Check = (value) => words(value) && value !== '';
const speaker: Check = exactly({ name: label, from: oneOf(...speakerKinds), link: orNull(label) });
const remark: Check = exactly({
  id,
  at: orNull(exactly({ x: share, y: share })),
  text: said,
  inside: yesOrNo,
  by: speaker,
});
const agreedPicturesMax = 99;
const agreedPictures: Check = listOf(
  exactly({ frame: id, look: text(64), profile: orNull(sha256) }),
  agreedPicturesMax,
);
const agreement: Check = exactly({ id, shot: label, pictures: agreedPictures, by: speaker, atMs: moment });

/** What each record of a person's choice may hold beside who chose. */
export const choiceShapes: Readonly<Record<Choice['type'], Fields>> = {
  'mark-set': { frame: id, mark: oneOf(...marks) },
  'shot-set': { frame: id, shot: orNull(label) },
  'job-set': { frame: id, job: label },
  'purpose-set': { frame: id, purpose: oneOf(...purposes) },
  'spot-set': { frame: id, spot: orNull(spot) },
  'look-set': { frame: id, look: orNull(id) },
  'share-set': { frame: id, share: oneOf(null, ...frameShares) },
  'remark-made': { frame: id, remark },
  'remark-answered': { frame: id, remark: id, answer: exactly({ id, text: said, by: speaker }) },
  'remark-settled': { frame: id, remark: id, settled: yesOrNo, by: speaker },
  agreed: { job: label, agreement },
  'agreement-withdrawn': { job: label, agreement: id },
  'look-saved': {
    look: id,
    name: label,
    version: (value) => whole(value) && value !== 0,
    hash: sha256,
    document: lookDocument,
    by: label,
  },
  'look-aside-set': { look: id, aside: yesOrNo },
  'acceptance-set': { frame: id, question, acceptance: orNull(acceptance) },
  'job-opened': { code: label, title: words, client: words, shots: namedShots },
  'job-closed': {},
  'job-described': {
    job: label,
    title: words,
    client: words,
    fromDate: orNull(day),
    toDate: orNull(day),
    place: words,
    notes,
  },
  'job-state-set': { job: label, state: oneOf('waiting', 'open', 'closed') },
  'job-tolerances-set': { job: label, tolerances },
  'job-removed': { job: label },
  'shot-stated': { job: label, shot },
  'shots-ordered': { job: label, shots: listOf(label, shotsMax) },
  'shot-removed': { job: label, shot: label },
  'shot-current-set': { job: label, shot: orNull(label) },
  'job-hand-over-set': {
    job: label,
    naming: text(200),
    look: orNull(label),
    lookId: orLeftOut(id),
    deliveries: listOf(label, 20),
    metadata: orLeftOut(text(65_536)),
  },
  'job-grey-card-set': { job: label, on: yesOrNo },
  'job-colour-set': { job: label, edition: oneOf(null, ...targetEditions), toleranceSet: orNull(label) },
  'job-targets-set': { job: label, targets: listOf(target, targetsMax) },
  'job-scales-set': { job: label, scales: listOf(scale, shotsMax) },
  'job-last-numbers-set': { job: label, lastNumbers: listOf(lastNumber, lastNumbersMax) },
  'job-explained-set': { job: label, explained: listOf(explained, explainedMax) },
  'job-signed-set': { job: label, signed: orNull(exactly({ name: label, atMs: moment, state: sha256 })) },
  'shot-followed': { frame: id, shot: orNull(label), by: oneOf('arrival', 'slate') },
  'slate-heeded': {
    frame: id,
    slate: exactly({ job: label, shot: orNull(label), before: orNull(label), inForce: yesOrNo }),
  },
  'camera-set': { camera: label, expects: oneOf(null, ...expectedFiles) },
  'camera-clock-set': { camera: label, offsetMs: moment, sinceMs: orNull(moment) },
  'camera-added': { name: label, user: label, passwordHash: orNull(words) },
};
