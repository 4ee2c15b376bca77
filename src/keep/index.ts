/** keep: originals, the journal, and each camera's folder as a view over both. See JOURNAL.md and SPEC.md. */
export type {
  Arrival,
  ArrivalEnd,
  ArrivalOutcome,
  FolderEntry,
  Inspect,
  KeptFolder,
  OpenHow,
} from './arrival-shapes.ts';
export type { BrokenOffFile } from './broken-off-files.ts';
export { cardMark } from './card/card-mark.ts';
export type { CardFile, CardFileState, CardProgress, CardReport } from './card/card-report.ts';
export { checkCard } from './card/check-card.ts';
export { isInMemory } from './copies/in-memory.ts';
export type { PlaceStatus } from './copies/place-options.ts';
export type { PutBackOutcome } from './copies/put-back.ts';
export { journalRescue, rescueFindings } from './copies/rescue.ts';
export { openSecondPlaces, type SecondPlaces } from './copies/second-places.ts';
export { verifiedBy } from './copies/verified-by.ts';
export { type CopiesReport, verifyCopies } from './copies/verify-copies.ts';
export type { KeptFile } from './core/arrival-records.ts';
export type { CardChecked, CardLast } from './core/card-records.ts';
export type { Choice, Chosen } from './core/choice-records.ts';
export type { ChosenEntry } from './core/chosen-lately.ts';
export type { ReadBackMethod } from './core/copy-records.ts';
export type { EventFile, KeepEvent } from './core/keep-event.ts';
export { cardLastsMax } from './core/record-shapes.ts';
export type { JournalRecord, Stamp } from './core/records.ts';
export type { VerificationLast, VerificationNote, VerificationRound } from './core/verification-note.ts';
export type { OriginalTrouble, Verified } from './core/verified.ts';
export type { Disk, DiskEntry, DiskFile, DiskSpace } from './disk.ts';
export type { FolderErrorCode, KeepErrorCode } from './errors.ts';
export type { FoldReport } from './fold.ts';
export type { IncomingHeld, IncomingWhy } from './incoming-held.ts';
export { type JobContents, readJobContents } from './job-contents.ts';
export { type Keep, type KeepOptions, openKeep } from './keep.ts';
export type { Leftover } from './leftovers.ts';
export type { FileReadAgain, PlaceReadAgain, ReadAgainEnd, ReadAgainOptions } from './reading/read-again.ts';
export type { Reading, ReadingPace } from './reading/reading.ts';
export { putOriginalsBack, readCard, readEverythingAgain } from './reading/start-reading.ts';
export { readVerificationNote, verificationStamp, writeVerificationNote } from './verification-file.ts';
export { readVerified, verifiedStamp, writeVerified } from './verified-file.ts';
export { type VerifyProgress, type VerifyReport, verifyOriginals } from './verify.ts';
