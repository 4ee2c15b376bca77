/**
 * Codes that the rules refuse with.
 *
 * | code | when |
 * | --- | --- |
 * | `no-job` | there is no job of this code |
 * | `no-shot` | the job has no shot of this id, or it is hidden |
 * | `job-exists` | a job of this code is there already |
 * | `bad-job-code` | a code that would be no folder name, or the tray's |
 * | `bad-words` | a text is too long or empty, a date is none |
 * | `bad-tolerance` | limits that are no numbers in their order |
 * | `job-finished` | a job that is closed is not changed; open it again first |
 * | `too-many-shots` | the list would be longer than {@link shotsMax} |
 * | `bad-order` | the order does not name each shot, or frame of a shot, once |
 * | `too-many-baselines` | more than {@link baselinesMax} baselines for one shot |
 * | `too-many-targets` | more than {@link targetsMax} targets that count in one job |
 * | `bad-scale` | a length on the set that is none, or too short in the picture to measure by |
 * | `no-such-tolerance-set` | there is no tolerance set of this name |
 * | `no-such-look` | no saved look has this id |
 * | `too-many-looks` | more than {@link looksMax} saved versions of looks |
 * | `no-remark` | the frame has no remark of this id |
 * | `id-taken` | what was sent has the id of something else |
 * | `too-many-remarks` | more than {@link remarkEntriesOfFrameMax} remarks and answers on one frame, or too long ones |
 * | `nothing-to-agree` | the shot has no hero that could be seen |
 * | `picture-changed` | the heroes of the shot are others than were seen |
 * | `too-many-agreements` | more than {@link agreementsOfShotMax} agreements to one shot |
 * | `name-taken` | somebody agreed to the shot by the same name on another device |
 * | `not-yours` | an agreement that somebody else gave is not taken back by a guest |
 * | `nothing-to-undo` | no act is left that could be taken back |
 * | `nothing-to-put-back` | nothing was taken back since the last thing that was done |
 * | `undo-overtaken` | a later act changed the same thing |
 * | `verdict-is-good` | a verdict that is good needs no acceptance |
 * | `has-frames` | a job or a shot that was made stays once it has frames |
 * | `spreadsheet-file` | a shot list that is a spreadsheet's own file, packed or binary |
 * | `no-such-numbers` | no frame of the job is numbered by this camera |
 * | `bad-number` | a camera's last number that is none from 1 to 9999 |
 * | `no-such-line` | the strike check has no such line that somebody could take upon themselves |
 * | `strike-not-ready` | lines of the strike check are open |
 * | `strike-changed` | the strike check says something else than the one that was seen |
 * | `bad-text` | a shot list whose bytes are no text we can read, or too many |
 */
export type JobErrorCode =
  | 'no-job'
  | 'no-shot'
  | 'job-exists'
  | 'bad-job-code'
  | 'bad-words'
  | 'bad-tolerance'
  | 'job-finished'
  | 'too-many-shots'
  | 'bad-order'
  | 'too-many-baselines'
  | 'too-many-targets'
  | 'bad-scale'
  | 'no-such-tolerance-set'
  | 'no-such-look'
  | 'too-many-looks'
  | 'no-remark'
  | 'id-taken'
  | 'too-many-remarks'
  | 'nothing-to-agree'
  | 'picture-changed'
  | 'too-many-agreements'
  | 'name-taken'
  | 'not-yours'
  | 'nothing-to-undo'
  | 'nothing-to-put-back'
  | 'undo-overtaken'
  | 'act-taken-back'
  | 'verdict-is-good'
  | 'has-frames'
  | 'spreadsheet-file'
  | 'no-such-numbers'
  | 'bad-number'
  | 'no-such-line'
  | 'strike-not-ready'
  | 'strike-changed'
  | 'bad-text';
