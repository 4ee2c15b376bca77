import { afterAll, beforeAll, expect, test } from 'vitest';
import { openApiPath } from './openapi.ts';
import { openWebBench, type WebBench } from './testing/web-bench.ts';

type Node = Record<string, unknown>;

let bench: WebBench;
let document: Node;
beforeAll(async () => {
  bench = await openWebBench();
  const answer = await bench.app.inject(openApiPath);
  expect(answer.statusCode).toBe(200);
  expect(answer.headers['content-type']).toMatch(/^application\/json/);
  document = answer.json();
});
afterAll(() => bench.close());

const nodeAt = (parent: Node, key: string): Node => {
  const value = parent[key];
  if (typeof value !== 'object' || value === null) throw new Error(`${key} is no object`);
  return value as Node;
};

interface Operation {
  readonly path: string;
  readonly method: string;
  readonly node: Node;
}

/** Operations by the fixed method fields of a Path Item Object (OpenAPI 3.1.1). */
function operations(): Operation[] {
  const methods = ['get', 'put', 'post', 'delete', 'options', 'head', 'patch', 'trace'];
  return Object.entries(nodeAt(document, 'paths')).flatMap(([path, item]) =>
    Object.entries(item as Node)
      .filter(([method]) => methods.includes(method))
      .map(([method, node]) => ({ path, method, node: node as Node })),
  );
}

test('the document has what OpenAPI 3.1.1 requires of the OpenAPI Object and the Info Object', () => {
  expect(document.openapi).toMatch(/^3\.1\.\d+$/);
  expect(nodeAt(document, 'info')).toMatchObject({ title: 'Setside', version: '0.0.0-test' });
  expect(Object.keys(nodeAt(document, 'paths')).every((path) => path.startsWith('/'))).toBe(true);
});

test('every call of the contract that exists is described, and nothing else is', () => {
  expect(
    operations()
      .map(({ method, path }) => `${method.toUpperCase()} ${path}`)
      .sort(),
  ).toEqual([
    'DELETE /api/v1/arrivals/{id}',
    'DELETE /api/v1/bags',
    'DELETE /api/v1/cards',
    'DELETE /api/v1/destinations/{destination}',
    'DELETE /api/v1/frames/{id}/acceptances/{question}',
    'DELETE /api/v1/jobs/{job}/agreements/{agreement}',
    'DELETE /api/v1/jobs/{job}/shots/{shot}',
    'DELETE /api/v1/jobs/{job}/shots/{shot}/baseline/{frame}',
    'DELETE /api/v1/jobs/{job}/shots/{shot}/scale',
    'DELETE /api/v1/jobs/{job}/strike/explained',
    'DELETE /api/v1/jobs/{job}/strike/numbers/{camera}',
    'DELETE /api/v1/jobs/{job}/strike/signature',
    'DELETE /api/v1/jobs/{job}/targets/{frame}',
    'DELETE /api/v1/links/me',
    'DELETE /api/v1/links/{link}',
    'DELETE /api/v1/metadata/{title}',
    'GET /api/v1/arrivals',
    'GET /api/v1/bags',
    'GET /api/v1/cameras/{camera}/sheet.pdf',
    'GET /api/v1/cards',
    'GET /api/v1/client',
    'GET /api/v1/deliveries',
    'GET /api/v1/deliveries/specifications',
    'GET /api/v1/deliveries/{delivery}',
    'GET /api/v1/destinations',
    'GET /api/v1/diary',
    'GET /api/v1/events',
    'GET /api/v1/frames',
    'GET /api/v1/frames/{id}',
    'GET /api/v1/frames/{id}/files/{name}',
    'GET /api/v1/frames/{id}/first-view',
    'GET /api/v1/frames/{id}/picture',
    'GET /api/v1/frames/{id}/readings',
    'GET /api/v1/frames/{id}/region',
    'GET /api/v1/frames/{id}/remarks',
    'GET /api/v1/frames/{id}/scene',
    'GET /api/v1/frames/{id}/xmp',
    'GET /api/v1/health',
    'GET /api/v1/jobs',
    'GET /api/v1/jobs/{job}',
    'GET /api/v1/jobs/{job}/agreements',
    'GET /api/v1/jobs/{job}/contact-sheet.pdf',
    'GET /api/v1/jobs/{job}/papers',
    'GET /api/v1/jobs/{job}/report',
    'GET /api/v1/jobs/{job}/report.pdf',
    'GET /api/v1/jobs/{job}/series',
    'GET /api/v1/jobs/{job}/shots/export',
    'GET /api/v1/jobs/{job}/shots/{shot}/layout',
    'GET /api/v1/line',
    'GET /api/v1/links',
    'GET /api/v1/links/me',
    'GET /api/v1/looks',
    'GET /api/v1/looks/{look}',
    'GET /api/v1/metadata',
    'GET /api/v1/station',
    'GET /api/v1/station/certificate.crt',
    'GET /api/v1/station/certificate.pem',
    'GET /api/v1/strike',
    'GET /api/v1/undo',
    'GET /api/v1/verification',
    'PATCH /api/v1/cameras/{camera}',
    'PATCH /api/v1/deliveries/{delivery}',
    'PATCH /api/v1/frames/{id}',
    'PATCH /api/v1/jobs/{job}',
    'PATCH /api/v1/jobs/{job}/shots/{shot}',
    'POST /api/v1/bags',
    'POST /api/v1/bags/check',
    'POST /api/v1/cameras',
    'POST /api/v1/cards',
    'POST /api/v1/cards/outcome',
    'POST /api/v1/cards/take-in',
    'POST /api/v1/deliveries',
    'POST /api/v1/deliveries/plan',
    'POST /api/v1/destinations/{destination}/test',
    'POST /api/v1/frames/{id}/remarks',
    'POST /api/v1/frames/{id}/remarks/{remark}/answers',
    'POST /api/v1/frames/{id}/try',
    'POST /api/v1/jobs',
    'POST /api/v1/jobs/{job}/frames',
    'POST /api/v1/jobs/{job}/shots',
    'POST /api/v1/jobs/{job}/shots/import',
    'POST /api/v1/jobs/{job}/shots/{shot}/agreements',
    'POST /api/v1/jobs/{job}/shots/{shot}/back',
    'POST /api/v1/jobs/{job}/shots/{shot}/baseline',
    'POST /api/v1/jobs/{job}/strike/explained',
    'POST /api/v1/jobs/{job}/targets',
    'POST /api/v1/line/rehearsal',
    'POST /api/v1/links',
    'POST /api/v1/links/enter',
    'POST /api/v1/looks',
    'POST /api/v1/looks/{look}/aside',
    'POST /api/v1/looks/{look}/back',
    'POST /api/v1/looks/{look}/use',
    'POST /api/v1/marks',
    'POST /api/v1/metadata',
    'POST /api/v1/metadata/{title}/back',
    'POST /api/v1/originals/put-back',
    'POST /api/v1/undo',
    'POST /api/v1/undo/back',
    'PUT /api/v1/client',
    'PUT /api/v1/destinations/{destination}',
    'PUT /api/v1/frames/{id}/acceptances/{question}',
    'PUT /api/v1/frames/{id}/remarks/{remark}/settled',
    'PUT /api/v1/jobs/{job}/order',
    'PUT /api/v1/jobs/{job}/shots/{shot}/layout',
    'PUT /api/v1/jobs/{job}/shots/{shot}/scale',
    'PUT /api/v1/jobs/{job}/strike/numbers/{camera}',
    'PUT /api/v1/jobs/{job}/strike/signature',
    'PUT /api/v1/verification',
  ]);
});

test('each operation has an id of its own, a summary, a declared tag, and an answer for problems', () => {
  const tags = (document.tags as Node[]).map((tag) => tag.name);
  const ids = operations().map(({ node }) => node.operationId);
  expect(new Set(ids).size).toBe(ids.length);
  for (const { node } of operations()) {
    expect(node.operationId).toMatch(/^[a-z][A-Za-z]+$/);
    expect(node.summary).toBeTypeOf('string');
    expect(tags).toEqual(expect.arrayContaining(node.tags as string[]));
    expect(JSON.stringify(nodeAt(nodeAt(node, 'responses'), 'default'))).toContain(
      'application/problem+json',
    );
  }
});

test('each answer is keyed and described as the Responses Object and the Response Object require', () => {
  for (const { path, node } of operations()) {
    const answers = Object.entries(nodeAt(node, 'responses'));
    expect(
      answers.some(([status]) => status.startsWith('2')),
      path,
    ).toBe(true);
    for (const [status, answer] of answers) {
      expect(status).toMatch(/^([1-5](\d\d|XX)|default)$/);
      expect((answer as Node).description, `${path} ${status}`).toMatch(/^(?!Default Response$)\S/);
    }
  }
});

test('each name in a path is a required path parameter, each parameter has a schema (Parameter Object)', () => {
  for (const { path, node } of operations()) {
    const parameters = (node.parameters ?? []) as Node[];
    const inPath = parameters.filter((parameter) => parameter.in === 'path');
    expect(inPath.map((parameter) => parameter.name).sort()).toEqual(
      [...path.matchAll(/\{(\w+)\}/g)].map((match) => match[1]).sort(),
    );
    for (const parameter of inPath) expect(parameter.required).toBe(true);
    for (const parameter of parameters) {
      expect(['path', 'query', 'header', 'cookie']).toContain(parameter.in);
      expect(parameter.schema, `${path} ${parameter.name}`).toBeTypeOf('object');
    }
  }
});

test('every reference leads to a component, and every component is referred to', () => {
  const schemas = nodeAt(nodeAt(document, 'components'), 'schemas');
  const references = [...JSON.stringify(document).matchAll(/"\$ref":"([^"]+)"/g)].map((match) => match[1]);
  const names = references.map((reference) => {
    expect(reference).toMatch(/^#\/components\/schemas\/[A-Za-z0-9._-]+$/);
    return reference?.split('/').at(-1);
  });
  expect([...new Set(names)].sort()).toEqual(Object.keys(schemas).sort());
  expect(Object.keys(schemas)).toEqual(
    expect.arrayContaining(['Frame', 'Station', 'Problem', 'StationEvent']),
  );
});

test('what a caller may send is described with its bounds', () => {
  const listFrames = operations().find(({ node }) => node.operationId === 'listFrames');
  const limit = ((listFrames?.node.parameters ?? []) as Node[]).find(
    (parameter) => parameter.name === 'limit',
  );
  expect(limit).toMatchObject({
    in: 'query',
    required: false,
    schema: { type: 'integer', minimum: 1, maximum: 500, default: 100 },
  });
});

test('pictures and originals are described by their media types, events as an event stream', () => {
  const content = (operationId: string): string[] => {
    const found = operations().find(({ node }) => node.operationId === operationId);
    return Object.keys(nodeAt(nodeAt(nodeAt(found?.node ?? {}, 'responses'), '200'), 'content'));
  };
  expect(content('getPicture')).toEqual(['image/jpeg', 'image/webp', 'image/png']);
  expect(content('getOriginal')).toEqual(['application/octet-stream']);
  expect(content('getEvents')).toEqual(['text/event-stream']);
});
