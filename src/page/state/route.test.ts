import { expect, test } from 'vitest';
import { addressOf, type Route, routeOf } from './route.ts';

test('every page comes back from its own address, whatever the code of its job', () => {
  const routes: Route[] = [
    { page: 'set' },
    { page: 'job', job: null },
    { page: 'job', job: 'QM-26' },
    { page: 'job', job: 'a/b #?%' },
    { page: 'call-sheet', job: 'QM-26' },
    { page: 'strike', job: null },
    { page: 'strike', job: 'QM-26' },
    { page: 'line' },
    { page: 'camera-sheet', camera: 'cam1' },
  ];
  for (const route of routes) expect(routeOf(addressOf(route))).toEqual(route);
});

test('what no page is known by is the Set page, and a broken code names no job', () => {
  expect(['', '#', '#/', '#/nothing', '#picture', '#/call-sheet', '#/camera-sheet'].map(routeOf)).toEqual(
    Array.from({ length: 7 }, () => ({ page: 'set' })),
  );
  expect(routeOf('#/job/%')).toEqual({ page: 'job', job: null });
});
