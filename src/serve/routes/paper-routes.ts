import { Readable } from 'node:stream';
import { z } from 'zod';
import { jobReport, papersUnderWay } from '../../contract/index.ts';
import { marks } from '../../facts/index.ts';
import { bytesAnswer, jsonAnswer, problemAnswers } from '../answers.ts';
import { sendNothing } from '../content.ts';
import { attachmentDisposition } from '../core/attachment-name.ts';
import { isSharedShot } from '../core/shared.ts';
import type { Share, Who } from '../core/who.ts';
import type { StationDesk } from '../desk.ts';
import { callerOf } from '../guard.ts';
import { paperSizes } from '../paper-calls.ts';
import type { WebApp } from '../web-app.ts';
import { jobParams, noSuchJob } from './job-routes.ts';
import { codeOrId } from './path-values.ts';

const paper = z.enum(paperSizes).default('a4').describe('ISO A4 or US Letter');

const contactQuery = z.strictObject({
  paper,
  columns: z.coerce
    .number()
    .int()
    .min(2)
    .max(6)
    .default(4)
    .describe('Frames beside each other; heroes lie in half as many'),
  shot: codeOrId.optional().describe('Id of a shot; all, and frames of none, where left out'),
  marks: z
    .string()
    .transform((list) => list.split(','))
    .pipe(z.array(z.enum(marks)).min(1))
    .optional()
    .describe('Marks, parted by commas, such as `hero,select`; any where left out'),
  copy: z
    .enum(['own', 'client'])
    .default('own')
    .describe('`client`: only what guests see, without verdicts and without what is said inside'),
});

/** What of a job is printed. */
export function paperRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/jobs/:job/contact-sheet.pdf',
    {
      schema: {
        tags: ['papers'],
        operationId: 'getContactSheet',
        summary: 'A contact sheet of the job, as PDF to print',
        description:
          'Frames under their shots, heroes first. Who comes in by a link that is not an operator’s gets the copy for the client, a guest of what is shared with them. It is drawn while it is sent, so its length is not told; the headers `setside-frames` and `setside-pages` say how much there will be, and `papers` how far it is. One that ends without `%%EOF` is not whole.',
        params: jobParams,
        querystring: contactQuery,
        response: {
          200: bytesAnswer('The sheet', 'application/pdf'),
          ...problemAnswers('bad-value', 'not-found', 'no-shot', 'nothing-to-print', 'busy'),
        },
      },
    },
    async (request, reply) => {
      const { job } = request.params;
      const { copy, shot, marks: asked, ...query } = request.query;
      const who = callerOf(request);
      const forGuest = guestShare(who, job, shot);
      const forClient = copy === 'client' || who.scope !== 'operator';
      const sheet = await desk.contactSheet(job, { ...query, shot, marks: asked, forClient, forGuest });
      if (sheet === null) throw noSuchJob();
      reply.type('application/pdf').headers({
        'content-disposition': attachmentDisposition(`${job}-contact-sheet.pdf`),
        'cache-control': 'no-store',
        'setside-frames': sheet.frames,
        'setside-pages': sheet.pages,
      });
      if (request.method === 'HEAD') {
        await sheet.parts.return(undefined);
        return sendNothing(request, reply);
      }
      return reply.send(Readable.from(sheet.parts, { objectMode: false }));
    },
  );
  app.get(
    '/api/v1/jobs/:job/papers',
    {
      schema: {
        tags: ['papers'],
        operationId: 'papersUnderWay',
        summary: 'How far the contact sheets of the job are that are being drawn',
        params: jobParams,
        response: { 200: jsonAnswer('What is being drawn', papersUnderWay), ...problemAnswers('not-found') },
      },
    },
    async (request) => {
      const contactSheets = await desk.papersUnderWay(request.params.job);
      if (contactSheets === null) throw noSuchJob();
      return { contactSheets: [...contactSheets] };
    },
  );
  app.get(
    '/api/v1/jobs/:job/report.pdf',
    {
      schema: {
        tags: ['papers'],
        operationId: 'getJobReport',
        summary: 'How the job went, on one page, as PDF to print',
        description:
          'Shots against what was wanted, how long people waited and how the shutter’s moment is known, light, colour, numbers that never came, copies, what is open, who signed.',
        params: jobParams,
        querystring: z.strictObject({ paper }),
        response: {
          200: bytesAnswer('The report', 'application/pdf'),
          ...problemAnswers('bad-value', 'not-found'),
        },
      },
    },
    async (request, reply) => {
      const { job } = request.params;
      const pdf = await desk.jobReport(job, request.query);
      if (pdf === null) throw noSuchJob();
      return reply
        .type('application/pdf')
        .headers({
          'content-disposition': attachmentDisposition(`${job}-report.pdf`),
          'cache-control': 'no-store',
        })
        .send(Buffer.from(pdf));
    },
  );
  app.get(
    '/api/v1/jobs/:job/report',
    {
      schema: {
        tags: ['papers'],
        operationId: 'getJobReportData',
        summary: 'How the job went, as figures: what the page shows, to count on',
        params: jobParams,
        response: { 200: jsonAnswer('The report', jobReport), ...problemAnswers('not-found') },
      },
    },
    async (request) => {
      const report = await desk.jobReportData(request.params.job);
      if (report === null) throw noSuchJob();
      return report;
    },
  );
}

/** What a guest is shown of the job; null for who is none. A job or shot that is not shared is not there. */
function guestShare({ scope, share }: Who, job: string, shot: string | undefined): Share | null {
  if (scope !== 'guest') return null;
  if (share === null || share === undefined || share.job !== job) throw noSuchJob();
  if (shot !== undefined && !isSharedShot(share, shot)) throw noSuchJob();
  return share;
}
