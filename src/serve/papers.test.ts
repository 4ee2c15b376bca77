import { afterEach, beforeEach, expect, test } from 'vitest';
import { sampleJob } from '../contract/testing/sample-job.ts';
import { openWebBench, type WebBench } from './testing/web-bench.ts';

let bench: WebBench;
beforeEach(async () => {
  bench = await openWebBench();
  bench.desk.jobList.push(sampleJob({ code: 'QM-26' }));
});
afterEach(() => bench.close());

test('a contact sheet is sent as it is drawn, with what there will be of it in the head', async () => {
  const answer = await bench.app.inject('/api/v1/jobs/QM-26/contact-sheet.pdf');
  expect(answer.statusCode).toBe(200);
  expect(answer.headers).toMatchObject({
    'content-type': 'application/pdf',
    'cache-control': 'no-store',
    'setside-frames': '2',
    'setside-pages': '1',
  });
  expect(answer.headers['content-disposition']).toContain('filename="QM-26-contact-sheet.pdf"');
  expect(answer.headers['content-length']).toBeUndefined();
  expect(answer.payload).toBe('%PDF-%%EOF');
  const usual = { paper: 'a4', columns: 4, shot: undefined, marks: undefined };
  expect(bench.desk.asked.at(-1)).toEqual([
    'contactSheet',
    'QM-26',
    { ...usual, forClient: false, forGuest: null },
  ]);
});

test('what is asked for is checked: columns, marks, paper', async () => {
  const ask = (query: string) => bench.app.inject(`/api/v1/jobs/QM-26/contact-sheet.pdf?${query}`);
  expect((await ask('columns=6&marks=hero,select&shot=mug&paper=letter&copy=client')).statusCode).toBe(200);
  const wish = { paper: 'letter', columns: 6, shot: 'mug', marks: ['hero', 'select'] };
  expect(bench.desk.asked.at(-1)).toEqual([
    'contactSheet',
    'QM-26',
    { ...wish, forClient: true, forGuest: null },
  ]);
  for (const query of ['columns=1', 'columns=7', 'marks=best', 'marks=', 'paper=a3', 'copy=press', 'x=1'])
    expect((await ask(query)).json(), query).toMatchObject({ code: 'bad-value' });
});

test('who follows a link to a paper that is refused reads why on a page, a program gets the problem as JSON', async () => {
  const ask = (accept: string) =>
    bench.app.inject({ url: '/api/v1/jobs/NONE/contact-sheet.pdf', headers: { accept } });
  // What browsers send where a link is followed: the Fetch Standard's value for a document.
  const page = await ask('text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8');
  expect(page.statusCode).toBe(404);
  expect(page.headers['content-type']).toBe('text/html; charset=utf-8');
  expect(page.payload).toContain('<h1>');
  expect(page.payload).not.toMatch(/\{|no-job|\/api\//);
  for (const accept of ['*/*', 'application/json, text/html', 'application/problem+json']) {
    const problem = await ask(accept);
    // RFC 9457 section 3.
    expect(problem.headers['content-type'], accept).toBe('application/problem+json');
    expect(problem.json()).toMatchObject({ status: 404 });
  }
});

test('who asks for the head alone gets no sheet drawn', async () => {
  const answer = await bench.app.inject({
    method: 'HEAD',
    url: '/api/v1/jobs/QM-26/contact-sheet.pdf',
  });
  expect(answer.headers['setside-pages']).toBe('1');
  expect(answer.payload).toBe('');
});

test('how far a sheet is can be asked, and the report comes whole', async () => {
  expect((await bench.app.inject('/api/v1/jobs/QM-26/papers')).json()).toEqual({
    contactSheets: [{ frames: 20, done: 3, started: '2026-11-30T09:00:00.000Z' }],
  });
  const report = await bench.app.inject('/api/v1/jobs/QM-26/report.pdf?paper=letter');
  expect(report.headers['content-type']).toBe('application/pdf');
  expect(report.headers['content-disposition']).toContain('filename="QM-26-report.pdf"');
  expect(bench.desk.asked.at(-1)).toEqual(['jobReport', 'QM-26', { paper: 'letter' }]);
});

test('a job that is not there has no papers', async () => {
  for (const paper of ['contact-sheet.pdf', 'papers', 'report.pdf'])
    expect((await bench.app.inject(`/api/v1/jobs/nope/${paper}`)).json()).toMatchObject({
      code: 'not-found',
    });
});
