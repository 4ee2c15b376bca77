/** state: what is chosen and what is known, as plain data. No DOM, no clock. */
export { type ArrivalProgress, arrivalProgress } from './arrival-progress.ts';
export { type Burst, burstsOf } from './bursts.ts';
export { clockOffBy } from './clock-off.ts';
export { type CounterGap, counterGaps } from './counter-gaps.ts';
export { bySize, filesName } from './frame-files.ts';
export { type FrameList, framesOf } from './frame-list.ts';
export { cardSeen, type HandOverNews, noHandOverNews } from './hand-over-news.ts';
export { type HeldAgainst, heldAgainst } from './held-against.ts';
export { aboutTheHouse, type HouseFinding, houseFindings, inOrder } from './house-findings.ts';
export { jobOf, openJobOf } from './job-list.ts';
export { jobProblems } from './job-problems.ts';
export { clockIsOff, instantMs, momentOf } from './moment.ts';
export { jobsForFrame, moveTo, trayCode, trayFrames } from './move-targets.ts';
export { noPictureCode } from './no-picture.ts';
export { openQuestions } from './open-questions.ts';
export {
  type Card,
  firstState,
  type Link,
  type PageAction,
  type PageState,
  reducePage,
} from './page-state.ts';
export { addressOf, type Route, routeOf } from './route.ts';
export { hasAccepted, openJudgement, type Settled, settledOf, verdictsWithSettled } from './settled.ts';
export { type LinedJob, type ShotStop, shotBeside, shotStops } from './shot-stops.ts';
export { isArriving, newestFrame, onTheWay, shownFrame } from './shown-frame.ts';
