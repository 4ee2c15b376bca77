/** Shots of one job: a catalogue of a thousand products is several jobs, and a page lists them all at once. */
export const shotsMax = 500;
/** Characters of a name, a title, a client: a line of text as people write it. */
export const nameCharactersMax = 120;
/** Characters of notes and descriptions: half a printed page. */
export const textCharactersMax = 2000;
/** Characters of a naming template: a file name has at most 255 bytes on most disks, and the parts grow when filled in. */
export const namingCharactersMax = 200;
/** Delivery specifications of one job: print, web, archive and some more. */
export const deliveriesMax = 20;
/** Of the document that says what is written into a job's pictures: what `deliver` reads, and a journal line holds. */
export const metadataCharactersMax = 65_536;
/** Baselines of one shot: somebody who sets the light anew more often than this has another shot. */
export const baselinesMax = 50;
/** Frames of a shot that are put in order: those chosen of a long day. */
export const orderedFramesMax = 500;
/** Frames whose target counts in one job: one for each light of a long week. */
export const targetsMax = 100;
/** Longest length that a scale is told by, mm: a hundred metres are a house, not a set. */
export const scaleMmMax = 100_000;
/** Shortest length in the picture that a scale is told by, px: pointed out to a pixel or two, that is within 4 %. */
export const scalePxMin = 50;
/** Countings of which a last number is remembered for one job: cameras, and cards that were begun anew. */
export const lastNumbersMax = 50;
/** Lines of a strike check that somebody took upon themselves: more is no check any more. */
export const explainedMax = 200;
/** Frames that a shot can ask to be marked: nobody chooses more heroes of one shot. */
export const marksWantedMax = 99;
/** Largest limit of any tolerance: nothing is measured above it, and text stays readable. */
export const toleranceMax = 1_000_000;
/** Saved versions of looks in all: a station's many years, some ten megabytes in memory. */
export const looksMax = 2000;
/** Frames that a look is given in one go: a morning's; more are several calls. */
export const lookFramesMax = 500;
/** Remarks and answers of one frame: more than two people say about one picture, and still read at a glance. */
export const remarkEntriesOfFrameMax = 200;
/** Characters of all of them: every change of a frame is told to every page with the whole frame. */
export const remarkCharactersOfFrameMax = 20_000;
/** Words on one shot: a client, an art director and their guests. */
export const agreementsOfShotMax = 20;
/** Acts that can be taken back: a long morning's. */
export const undoActsMax = 200;

/** A shot list's bytes: 500 shots with descriptions of 2,000 characters of 4 bytes are below this. */
export const shotListBytesMax: number = 8 * 1024 * 1024;
/** Lines that are read; the rest is named as not read. Far above {@link shotsMax}, so that bad lines do not hide good ones. */
export const shotListLinesMax = 5000;
/** Characters of one field of a shot list. */
export const fieldCharactersMax = 4000;
/** Columns of one line: a spreadsheet with more is not a shot list. */
export const columnsMax = 200;
/** Bad lines that are named one by one; more than this is another kind of file. */
export const badLinesMax = 100;
