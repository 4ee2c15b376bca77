import type { FinishAnswer, FinishJob, ProveAnswer, ProveJob } from './finish-messages.ts';
import type {
  JudgeAnswer,
  JudgeJob,
  PlaceAnswer,
  PlaceJob,
  SurroundAnswer,
  SurroundJob,
} from './judge-messages.ts';
import type {
  LinearJob,
  PreviewJob,
  RenderAnswer,
  RenderJob,
  ResizeJob,
  SceneJob,
} from './render-messages.ts';

/** Every job a develop worker does: name to what goes in and what comes out. Values only; pixels stay in the worker. */
export interface DevelopJobs {
  readonly render: { readonly job: RenderJob; readonly answer: RenderAnswer };
  readonly scene: { readonly job: SceneJob; readonly answer: RenderAnswer };
  readonly linear: { readonly job: LinearJob; readonly answer: RenderAnswer };
  readonly resize: { readonly job: ResizeJob; readonly answer: RenderAnswer };
  readonly preview: { readonly job: PreviewJob; readonly answer: RenderAnswer };
  readonly judge: { readonly job: JudgeJob; readonly answer: JudgeAnswer };
  readonly place: { readonly job: PlaceJob; readonly answer: PlaceAnswer };
  readonly finish: { readonly job: FinishJob; readonly answer: FinishAnswer };
  readonly surround: { readonly job: SurroundJob; readonly answer: SurroundAnswer };
  readonly prove: { readonly job: ProveJob; readonly answer: ProveAnswer };
}

/** A job with its name. */
export type DevelopTask = {
  readonly [Name in keyof DevelopJobs]: { readonly name: Name; readonly job: DevelopJobs[Name]['job'] };
}[keyof DevelopJobs];

/** What comes back for one of them. */
export type DevelopAnswer = DevelopJobs[keyof DevelopJobs]['answer'];
