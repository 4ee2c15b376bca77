/** contract: shapes of HTTP bodies, events and command output. Shared by station, command line and page. */
export { type BrokenArrival, brokenArrival, brokenArrivalList } from './arrivals.ts';
export {
  type ArrivalEvent,
  arrivalEvent,
  type FrameEvent,
  frameEvent,
  lineEvent,
  resyncEvent,
  type StationEvent,
  stationEvent,
} from './events.ts';
export {
  captureFacts,
  type Frame,
  type FrameFile,
  type FramePage,
  type FramePatch,
  type FramePicture,
  type FrameTimes,
  type FrameVerdict,
  frame,
  frameFile,
  framePage,
  framePatch,
  framePicture,
  frameTimes,
  verdict,
} from './frame.ts';
export { finding, instant, sha256Hex } from './primitives.ts';
export { type Problem, problem } from './problem.ts';
export {
  type CameraEntry,
  type CameraPatch,
  cameraEntry,
  cameraPatch,
  type DiaryPage,
  type Door,
  diaryLine,
  diaryPage,
  door,
  type Health,
  health,
  type JobSummary,
  jobList,
  jobSummary,
  type NewCamera,
  newCamera,
  type ReadyLine,
  readyLine,
  type Station,
  station,
} from './station.ts';
