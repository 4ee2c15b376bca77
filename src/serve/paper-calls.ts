import type { JobReport, PaperUnderWay } from '../contract/index.ts';
import type { Mark } from '../facts/index.ts';
import type { Share } from './core/who.ts';

/** What the web door needs of the station about what is printed. Each null where there is no such job. */
export interface PaperCalls {
  /** Rejects `nothing-to-print`, `no-shot`, `busy`. */
  contactSheet(job: string, wish: ContactWish): Promise<ContactSheetAnswer | null>;
  /** Contact sheets of the job that are being drawn now. */
  papersUnderWay(job: string): Promise<readonly PaperUnderWay[] | null>;
  jobReport(job: string, wish: PaperWish): Promise<Uint8Array | null>;
  /** The same as figures. */
  jobReportData(job: string): Promise<JobReport | null>;
}

export const paperSizes = ['a4', 'letter'] as const;

export interface PaperWish {
  readonly paper: (typeof paperSizes)[number];
}

export interface ContactWish extends PaperWish {
  /** 2 to 6. */
  readonly columns: number;
  /** Id of a shot; undefined for all, and for frames of none. */
  readonly shot: string | undefined;
  /** Undefined for any, none too. */
  readonly marks: readonly Mark[] | undefined;
  /** What guests see, without verdicts and without what is said inside. */
  readonly forClient: boolean;
  /** A guest asks: of these shots only, of all where none is named; and not more than one for guests at a time. */
  readonly forGuest: Pick<Share, 'shots'> | null;
}

export interface ContactSheetAnswer {
  readonly frames: number;
  readonly pages: number;
  /** The PDF, drawn as it is taken. To be taken to its end, or returned. */
  readonly parts: AsyncGenerator<Uint8Array>;
}
