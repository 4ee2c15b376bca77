import { SetsideError } from '../../base/index.ts';
import type * as contract from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import {
  findSeries,
  type Job,
  type JobChoice,
  listedShots,
  planBaseline,
  planBaselineRemoval,
  planJobChange,
  planNewJob,
  planNewShot,
  planOrder,
  planShotChange,
  planShotRemoval,
  planShotReturn,
} from '../../job/index.ts';
import type { JobCalls, PatchBy, Who } from '../../serve/index.ts';
import { namedLookOf } from '../looks/look-shape.ts';
import { timedFrame } from '../readings/bracket-around.ts';
import { chooseForJobs, type JobDeskOptions } from './choose-for-jobs.ts';
import { exportShots } from './export-shots.ts';
import { assertFramesThere } from './frames-named.ts';
import { importShots } from './import-shots.ts';
import {
  actShape,
  colourOf,
  handOverOf,
  jobShape,
  jobWordsOf,
  shotChangeOf,
  tolerancesOf,
} from './job-shape.ts';
import { putBack, undo } from './take-back.ts';
import { toldActs } from './told-acts.ts';
import { nameOfShot, whatOfJob } from './what-changed.ts';
import { withWordsMoved } from './words-moved.ts';

/** The calls about jobs: the rules plan, the journal holds, the pages are told, and each act can be taken back. */
export function createJobDesk(options: JobDeskOptions): JobCalls {
  const { jobs, acts, inTurn } = options;
  const startedMs = options.now();
  const about = (
    code: string,
    by: PatchBy,
    act: (job: Job) => Promise<Finding | null>,
  ): Promise<contract.Job | null> =>
    inTurn(async () => {
      const job = jobs.job(code);
      if (job === null) return null;
      assertVersion(job, by);
      return (await act(job)) === null ? null : shapeOf(options, code);
    });
  const choose = async (by: PatchBy, what: Finding, choices: readonly JobChoice[]): Promise<Finding> => {
    await chooseForJobs(options, by.who, what, withWordsMoved(jobs.jobs(), choices));
    return what;
  };
  const hasFrame = async (frame: string): Promise<boolean> => (await options.book.row(frame)) !== null;
  const shotName = (code: string, id: string): string => nameOfShot(jobs.jobs(), code, id);
  /** Null where the job lists no such shot. */
  const aboutShot = (
    code: string,
    id: string,
    by: PatchBy,
    act: (job: Job) => Promise<Finding | null>,
  ): Promise<contract.Job | null> =>
    about(code, by, async (job) => (listedShots(job).some((shot) => shot.id === id) ? act(job) : null));

  return {
    jobs: async () => [...jobs.jobs().values()].reverse().map(jobShape),
    job: async (code) => {
      const job = jobs.job(code);
      return job === null ? null : jobShape(job);
    },
    makeJob: (wish, who) => inTurn(() => makeJob(options, wish, who)),
    patchJob: (code, patch, by) =>
      about(code, by, () =>
        choose(by, whatOfJob(jobs.jobs(), code, patch), patchChoices(options, code, patch)),
      ),
    addShot: (code, wish, by) =>
      about(code, by, async () => {
        const { name, lookId, ...rest } = wish;
        await assertFramesThere(hasFrame, undefined, rest);
        const look = namedLookOf(options.looks.looks(), { ...rest, lookId });
        const choices = planNewShot(jobs.jobs(), code, name, { ...shotChangeOf(rest), ...look });
        return choose(by, finding('shot-added', { job: code, name }), choices);
      }),
    patchShot: (code, shot, patch, by) =>
      aboutShot(code, shot, by, async (job) => {
        await assertFramesThere(
          hasFrame,
          job.shots.find(({ id }) => id === shot),
          patch,
        );
        const { lookId, ...rest } = patch;
        const look = namedLookOf(options.looks.looks(), patch);
        const choices = planShotChange(jobs.jobs(), code, shot, { ...shotChangeOf(rest), ...look });
        const isOrder = Object.keys(patch).join() === 'order';
        const what = isOrder ? 'shot-frames-ordered' : 'shot-changed';
        return choose(by, finding(what, { job: code, shot: shotName(code, shot) }), choices);
      }),
    removeShot: (code, shot, by) =>
      aboutShot(code, shot, by, async () => {
        const hasFrames = (await options.register.countFrames(code, shot)) > 0;
        const choices = planShotRemoval(jobs.jobs(), code, shot, hasFrames);
        return choose(by, finding('shot-taken-away', { job: code, shot: shotName(code, shot) }), choices);
      }),
    bringShotBack: (code, shot, by) =>
      about(code, by, async (job) => {
        const hidden = job.shots.find(({ id }) => id === shot);
        if (hidden === undefined) return null;
        const choices = planShotReturn(jobs.jobs(), code, shot);
        return choose(by, finding('shot-brought-back', { job: code, shot: hidden.name }), choices);
      }),
    orderShots: (code, order, by) =>
      about(code, by, () =>
        choose(by, finding('shots-ordered', { job: code }), planOrder(jobs.jobs(), code, order)),
      ),
    setBaseline: (code, shot, frame, by) =>
      aboutShot(code, shot, by, async () => {
        const row = await options.book.row(frame);
        if (row === null) throw new SetsideError('no-frame', `there is no frame ${frame}`);
        // Where the frame lies in the day, by the rule that orders frames: a wrong clock must not move the baseline.
        const choices = planBaseline(jobs.jobs(), code, shot, { id: frame, atMs: row.orderMs });
        const what = finding('baseline', { job: code, shot: shotName(code, shot), name: row.name });
        return choose(by, what, choices);
      }),
    removeBaseline: (code, shot, frame, by) =>
      aboutShot(code, shot, by, async () => {
        const choices = planBaselineRemoval(jobs.jobs(), code, shot, frame);
        const name = (await options.book.row(frame))?.name ?? frame;
        return choose(
          by,
          finding('baseline-removed', { job: code, shot: shotName(code, shot), name }),
          choices,
        );
      }),
    importShots: (code, file, preview, by) =>
      inTurn(async () => {
        const job = jobs.job(code);
        if (job === null) return null;
        if (!preview) assertVersion(job, by);
        const { plan, report } = await importShots(jobs.jobs(), code, file, hasFrame);
        const what = finding('list-taken-in', { job: code, count: plan.lines.length });
        if (!preview) await choose(by, what, plan.choices);
        return { ...report, preview, job: jobShape(jobs.job(code) ?? job) };
      }),
    exportShots: async (code, format) => {
      const job = jobs.job(code);
      return job === null ? null : exportShots(job, format);
    },
    series: async (code) => (jobs.job(code) === null ? null : seriesOf(options, code)),
    acts: async () => acts.all().map(actShape),
    toldActs: () => toldActs({ ...options, startedMs }),
    lastAct: async (of) => {
      const act = acts.lastAbout('frame' in of ? `frame ${of.frame}` : `job ${of.job}`);
      return act === null ? null : actShape(act);
    },
    undo: (act, who) => undo(options, act, who),
    putBack: (who) => putBack(options, who),
  };
}

function finding(what: string, args: Finding['args']): Finding {
  return { code: `job.${what}`, args };
}

function shapeOf({ jobs }: JobDeskOptions, code: string): contract.Job | null {
  const job = jobs.job(code);
  return job === null ? null : jobShape(job);
}

export function assertVersion(job: Job, { ifVersion }: PatchBy): void {
  if (ifVersion === 'any' || ifVersion.includes(job.version)) return;
  throw new SetsideError('version-changed', `job ${job.code} is at version ${job.version}`);
}

async function makeJob(options: JobDeskOptions, wish: contract.NewJob, who: Who): Promise<contract.Job> {
  const { code, copyOf, open, tolerances, ...words } = wish;
  const choices = planNewJob(options.jobs.jobs(), {
    ...jobWordsOf(words),
    code,
    ...(copyOf === undefined ? {} : { copyOf }),
    ...(tolerances === undefined ? {} : { tolerances: tolerancesOf(tolerances) }),
  });
  const opening = open === true ? openingOf(code, choices) : [];
  await chooseForJobs(options, who, finding('made', { job: code }), [...choices, ...opening]);
  const made = shapeOf(options, code);
  if (made === null) throw new Error('a job that was made is there');
  return made;
}

/** Opens a job that is being made; frames go to the first of the shots it begins with. */
function openingOf(code: string, made: readonly JobChoice[]): JobChoice[] {
  const [first] = made.flatMap((choice) => (choice.type === 'shot-stated' ? [choice.shot.id] : []));
  const current: JobChoice[] =
    first === undefined ? [] : [{ type: 'shot-current-set', job: code, shot: first }];
  return [{ type: 'job-state-set', job: code, state: 'open' }, ...current];
}

function patchChoices({ jobs, looks }: JobDeskOptions, code: string, patch: contract.JobPatch): JobChoice[] {
  const {
    state,
    tolerances,
    greyCard,
    naming,
    look,
    lookId,
    deliveries,
    metadata,
    currentShot,
    targetEdition,
    toleranceSet,
    ...words
  } = patch;
  return planJobChange(jobs.jobs(), code, {
    ...jobWordsOf(words),
    ...(state === undefined ? {} : { state }),
    ...(tolerances === undefined ? {} : { tolerances: tolerancesOf(tolerances) }),
    ...(greyCard === undefined ? {} : { greyCard }),
    ...handOverOf({ naming, deliveries, metadata }, namedLookOf(looks.looks(), { look, lookId })),
    ...colourOf({ targetEdition, toleranceSet }),
    ...(currentShot === undefined ? {} : { currentShot }),
  });
}

async function seriesOf({ book }: JobDeskOptions, code: string): Promise<contract.SeriesEntry[]> {
  const frames = [];
  for await (const row of book.everyRow({ job: code })) {
    if (row.shutterMs !== null) frames.push(timedFrame(row, row.shutterMs));
  }
  return findSeries(frames).map((each) => ({ ...each, frames: [...each.frames] }));
}
