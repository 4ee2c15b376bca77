/**
 * The tables as Kysely sees them. All but `frame_facts` are a function of the journal; `frame_facts` holds what was
 * found out from the originals and can be found out again. Times are milliseconds since 1970, sizes bytes.
 */
export interface Tables {
  frames: FramesTable;
  arrivals: ArrivalsTable;
  files: FilesTable;
  copies: CopiesTable;
  places: PlacesTable;
  marks: MarksTable;
  acceptances: AcceptancesTable;
  remarks: RemarksTable;
  jobs: JobsTable;
  shots: ShotsTable;
  cameras: CamerasTable;
  camera_clocks: CameraClocksTable;
  looks: LooksTable;
  frame_facts: FrameFactsTable;
  progress: ProgressTable;
}

export interface FramesTable {
  id: string;
  job: string;
  camera: string;
  shot: string | null;
  /** Who put it there, see `PlacedBy`. */
  placed: string;
  /** Why it went to no shot as it came, see `ShotlessAtArrival`; null where it went to one, or nobody wrote it down. */
  shotless: string | null;
  purpose: string;
  /** JSON: where it has to be sharp, see `FocusSpot`; null where nobody said. */
  spot: string | null;
  /** Id of the saved version of a look that was chosen for it alone. */
  look: string | null;
  /** Whether guests see it, see `FrameShare`; null: by its mark. */
  share: string | null;
  /** JSON: what was held into it, see `HeededSlate`; null for nothing. */
  slate: string | null;
  /** When that was written. */
  slate_ms: number | null;
  /** Name of the file the frame is shown by. */
  name: string;
  /** Shutter time where it is known, else when the first file was announced: what pages are ordered by. */
  order_ms: number;
  first_byte_ms: number | null;
  last_byte_ms: number | null;
  kept_ms: number | null;
  /** Files to be shown; a frame with none is void. */
  listed: number;
  /** Rises with every record that touches the frame. */
  version: number;
}

export interface CamerasTable {
  name: string;
  expects: string | null;
  said_ms: number;
}

export interface ArrivalsTable {
  id: string;
  frame: string;
  camera: string;
  view_path: string;
  name: string;
  incoming: string;
  state: ArrivalRowState;
  size: number;
  expected_size: number | null;
  announced_size: number | null;
  sha256: string | null;
  started_ms: number;
  first_byte_ms: number | null;
  last_byte_ms: number | null;
  /** 1 after the camera deleted it from its folder. */
  hidden: number;
}

export type ArrivalRowState =
  | 'arriving'
  | 'whole'
  | 'unproved'
  | 'broken-off'
  | 'damaged'
  | 'again'
  | 'made-good'
  | 'let-go'
  | 'folded'
  /** Kept, and no more as it was received when the same bytes came again and took its place in its frame. */
  | 'replaced';

/** Originals. */
export interface FilesTable {
  arrival: string;
  frame: string;
  /** Below the home. */
  path: string;
  size: number;
  sha256: string;
  wholeness: string;
  kept_ms: number;
}

/** Originals in second places. */
export interface CopiesTable {
  arrival: string;
  place: string;
  /** How it was read back. */
  read_back: string;
  /** 1 where the place was on another device: only then does it count. */
  other_device: number;
  copied_ms: number;
}

/** Second places, each with the folder it was last known by. */
export interface PlacesTable {
  id: string;
  folder: string;
}

export interface MarksTable {
  frame: string;
  mark: string;
  set_ms: number;
}

export interface AcceptancesTable {
  frame: string;
  question: string;
  judgement: string;
  name: string;
  reason: string;
  set_ms: number;
}

export interface RemarksTable {
  frame: string;
  id: string;
  /** Of the record that made it: their order. */
  seq: number;
  /** JSON of a `Remark`. */
  body: string;
}

export interface JobsTable {
  code: string;
  title: string;
  client: string;
  from_date: string | null;
  to_date: string | null;
  place: string;
  notes: string;
  /** `open` for the job that frames go to now. */
  state: string;
  /** JSON. */
  tolerances: string;
  /** 1 where a frame that a grey card fills says "next shot". */
  grey_card: number;
  /** JSON of a {@link HandOver}. */
  hand_over: string;
  /** JSON of a {@link JobColour}. */
  colour: string;
  /** JSON of a list of {@link CountedTarget}. */
  targets: string;
  /** JSON of a list of {@link ShotScale}. */
  scales: string;
  /** JSON: what people said for the strike check. */
  strike: string;
  /** JSON of a list of {@link GivenAgreement}. */
  agreements: string;
  current_shot: string | null;
  /** When it was last opened, or made. */
  opened_ms: number;
  /** Rises with every record about the job. */
  version: number;
}

export interface ShotsTable {
  job: string;
  id: string;
  /** Rises in the order of the list. */
  place: number;
  /** JSON: the shot. */
  body: string;
}

/** Saved versions of looks. */
export interface LooksTable {
  id: string;
  name: string;
  version: number;
  hash: string;
  /** JSON: the whole document. */
  document: string;
  saved_by: string;
  saved_ms: number;
  /** 1 where it was laid aside. */
  aside: number;
}

/** Each word about a camera's clock, in the order of saying. */
export interface CameraClocksTable {
  seq: number;
  camera: string;
  offset_ms: number;
  since_ms: number | null;
}

export interface FrameFactsTable {
  frame: string;
  kind: string | null;
  shutter_ms: number | null;
  first_view_ms: number | null;
  rendered_ms: number | null;
  judged_ms: number | null;
  /** JSON. */
  capture: string | null;
  /** JSON. */
  picture: string | null;
  /** JSON: what was seen held into the picture; null where nobody has looked. */
  seen: string | null;
  /** JSON: figures. */
  readings: string | null;
  /** JSON: maps and histograms. */
  reading_detail: string | null;
  version: number;
}

/** One row: the last record that the tables know. */
export interface ProgressTable {
  id: number;
  applied_seq: number;
}

/** The tables that the journal alone decides, children first. */
export const derivedTables = [
  'copies',
  'places',
  'files',
  'arrivals',
  'marks',
  'acceptances',
  'remarks',
  'shots',
  'jobs',
  'cameras',
  'camera_clocks',
  'looks',
  'frames',
  'progress',
] as const;
