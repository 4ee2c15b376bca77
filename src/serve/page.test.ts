import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { pagePolicy } from './security-headers.ts';
import { openWebBench, type WebBench } from './testing/web-bench.ts';

let bench: WebBench;
beforeEach(async () => {
  bench = await openWebBench();
});
afterEach(() => bench.close());

async function buildPage(): Promise<void> {
  await mkdir(join(bench.pageDir, 'assets'), { recursive: true });
  await writeFile(join(bench.pageDir, 'index.html'), '<!doctype html><title>page</title>');
  await writeFile(join(bench.pageDir, 'favicon.svg'), '<svg xmlns="http://www.w3.org/2000/svg"/>');
  await writeFile(join(bench.pageDir, '.secret'), 'secret');
  await writeFile(join(bench.pageDir, 'assets', 'main-0a1b.js'), 'export {};');
  await writeFile(join(bench.dir, 'outside.txt'), 'outside');
}

test('while the page is not built, its address says what to run; built later, it is there without a restart', async () => {
  const headers = { accept: 'text/html' };
  const before = await bench.app.inject({ url: '/', headers });
  expect(before.statusCode).toBe(503);
  expect(before.headers['content-type']).toBe('text/html; charset=utf-8');
  expect(before.body).toContain('npm start');
  await buildPage();
  expect((await bench.app.inject({ url: '/', headers })).statusCode).toBe(200);
});

test('the page’s own addresses give the page, never from a cache, under its policy', async () => {
  await buildPage();
  for (const url of ['/', '/set', '/set?frame=f1']) {
    const answer = await bench.app.inject(url);
    expect(answer.statusCode, url).toBe(200);
    expect(answer.body).toContain('<title>Set - Setside</title>');
    expect(answer.headers).toMatchObject({
      'content-type': 'text/html; charset=utf-8',
      'cache-control': 'no-store',
      'content-security-policy': pagePolicy,
    });
  }
});

test('assets with a hash in their name are kept for good, other files are asked for again', async () => {
  await buildPage();
  const asset = await bench.app.inject('/assets/main-0a1b.js');
  expect(asset.body).toBe('export {};');
  expect(asset.headers['cache-control']).toBe('public, max-age=31536000, immutable');
  expect(asset.headers['content-type']).toMatch(/^(text|application)\/javascript/);
  const icon = await bench.app.inject('/favicon.svg');
  expect(icon.headers['content-type']).toMatch(/^image\/svg\+xml/);
  expect(icon.headers['cache-control']).toBe('no-cache');
});

test('an unknown address is 404, not the page; so are folders, hidden files and what lies outside', async () => {
  await buildPage();
  const urls = [
    '/sett',
    '/set/more',
    '/assets/',
    '/assets',
    '/assets/none.js',
    '/.secret',
    '/../outside.txt',
    '/..%2foutside.txt',
    '/%2e%2e/outside.txt',
    '/assets/..%2f..%2foutside.txt',
    '/..%5coutside.txt',
    '/a%00b',
  ];
  for (const url of urls) {
    const answer = await bench.app.inject(url);
    expect([400, 404], `${url} ${answer.statusCode}`).toContain(answer.statusCode);
    expect(answer.headers['content-type'], url).toBe('application/problem+json');
    expect(answer.body).not.toMatch(/outside|secret|<title>page/);
  }
});

test('each page has its own title before any script ran', async () => {
  await buildPage();
  for (const [url, title] of [
    ['/set', 'Set - Setside'],
    ['/pocket', 'Pocket - Setside'],
    ['/guest', 'Pictures - Setside'],
    ['/in', 'Coming in - Setside'],
    ['/slates', 'Slates - Setside'],
    ['/clock', 'Clock slate - Setside'],
    ['/look', 'Look - Setside'],
  ]) {
    const { body } = await bench.app.inject(String(url));
    expect(body.match(/<title>.*<\/title>/g), url).toEqual([`<title>${title}</title>`]);
  }
});
