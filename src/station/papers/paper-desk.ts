import type { EpochMs } from '../../base/index.ts';
import type { Station } from '../../contract/index.ts';
import { type Job, type JobReport, jobReport } from '../../job/index.ts';
import type { EventLog, PaperCalls, PaperWish } from '../../serve/index.ts';
import { contactPaperLabels, paperLabels, reportLabels } from '../../words/index.ts';
import type { CameraClocks } from '../cameras/camera-clocks.ts';
import type { FrameBook } from '../frame-book.ts';
import type { JobBook } from '../jobs/job-book.ts';
import { checkJob, type StrikeSources } from '../jobs/strike-input.ts';
import { version } from '../version.ts';
import { type ContactSources, contactSheet } from './contact-sheet.ts';
import { clock, dayAndTime } from './moments.ts';
import { reportInput } from './report-input.ts';
import { reportShape } from './report-shape.ts';
import { UnderWay } from './under-way.ts';

export interface PaperDeskOptions extends Pick<ContactSources, 'picture'>, Omit<StrikeSources, 'book'> {
  readonly book: FrameBook;
  readonly jobs: Pick<JobBook, 'job'>;
  readonly clocks: CameraClocks;
  readonly cameras: () => Station['cameras'];
  readonly now: () => EpochMs;
  readonly events: Pick<EventLog, 'publish'>;
}

/** What is printed of a job. */
export function createPaperDesk(options: PaperDeskOptions): PaperCalls {
  const { jobs, now, events } = options;
  const underWay = new UnderWay(now, (job, contactSheets) =>
    events.publish({ type: 'papers', job, contactSheets }),
  );
  return {
    contactSheet: async (code, wish) => {
      const job = jobs.job(code);
      return job === null ? null : contactSheet({ ...options, underWay }, job, wish);
    },
    papersUnderWay: async (code) => (jobs.job(code) === null ? null : underWay.of(code)),
    jobReport: async (code, wish) => {
      const job = jobs.job(code);
      return job === null ? null : reportPdf(options, job, wish);
    },
    jobReportData: async (code) => {
      const job = jobs.job(code);
      return job === null ? null : reportShape(job, await report(options, job), now());
    },
  };
}

async function report(options: PaperDeskOptions, job: Job): Promise<JobReport> {
  const sources = { ...options, cameras: options.cameras(), secondPlaces: options.secondPlaces() };
  return jobReport(await reportInput(sources, job, await checkJob(options, job)));
}

async function reportPdf(options: PaperDeskOptions, job: Job, { paper }: PaperWish): Promise<Uint8Array> {
  const atMs = options.now();
  const days = [...new Set([job.fromDate, job.toDate].filter((day) => day !== null))].join(' – ');
  const whose = [job.title, job.client === '' ? '' : contactPaperLabels.client(job.client), job.place, days];
  const { jobReportPdf } = await import('../../paper/index.ts');
  return jobReportPdf({
    title: reportLabels.titleOf(job.code),
    lead: [whose.filter(Boolean).join(', ')].filter(Boolean),
    report: await report(options, job),
    size: paper,
    written: paperLabels.written(dayAndTime(atMs), version),
    atMs,
    clock,
    dayAndTime,
  });
}
