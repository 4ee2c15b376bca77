import { afterEach, beforeEach, expect, test } from 'vitest';
import { openWebBench, type WebBench } from './testing/web-bench.ts';

let bench: WebBench;
beforeEach(async () => {
  bench = await openWebBench();
});
afterEach(() => bench.close());

test('the sheet of a camera is a PDF to save, which no cache keeps', async () => {
  const answer = await bench.app.inject('/api/v1/cameras/cam1/sheet.pdf');
  expect(answer.statusCode).toBe(200);
  expect(answer.headers['content-type']).toBe('application/pdf');
  expect(answer.headers['cache-control']).toBe('no-store');
  expect(answer.headers['content-disposition']).toContain('attachment; filename="camera-sheet-cam1.pdf"');
  expect(answer.rawPayload.subarray(0, 5).toString()).toBe('%PDF-');
});

test('a camera that is not there has none', async () => {
  const answer = await bench.app.inject('/api/v1/cameras/cam9/sheet.pdf');
  expect(answer.statusCode).toBe(404);
  expect(answer.json()).toMatchObject({ code: 'not-found' });
});
