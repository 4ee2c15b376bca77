import fastifySwagger from '@fastify/swagger';
import { jsonSchemaTransform, jsonSchemaTransformObject } from 'fastify-type-provider-zod';
import type { WebApp } from './web-app.ts';

/** Where the description of the calls is found. */
export const openApiPath = '/api/openapi.json';

/** Describes every route registered after this one as OpenAPI 3.1, from the same schemas that check the calls. */
export async function describeApi(app: WebApp, version: string): Promise<void> {
  await app.register(fastifySwagger, {
    openapi: {
      openapi: '3.1.1',
      info: {
        title: 'Setside',
        version,
        description:
          'What the station at the side of the set knows and does. Times are RFC 3339 in UTC with milliseconds. ' +
          'Errors are RFC 9457 problem details with a stable code and a cure.',
        license: { name: 'Apache-2.0', identifier: 'Apache-2.0' },
      },
      servers: [{ url: '/', description: 'This station' }],
      tags: [
        { name: 'station', description: 'The station itself' },
        { name: 'links', description: 'Who may look in from another device' },
        { name: 'jobs', description: 'Jobs and their shots' },
        { name: 'frames', description: 'Frames, their pictures and their files' },
        { name: 'remarks', description: 'What people say of frames, and who agreed to which shot' },
        { name: 'looks', description: 'Looks that are kept, and tries of those that are not' },
        { name: 'client', description: 'The screen that faces the client' },
        { name: 'deliveries', description: 'What is handed over' },
        { name: 'papers', description: 'What is printed' },
        {
          name: 'cards',
          description: 'Memory cards held against what is here; on the station’s own computer only',
        },
        {
          name: 'bags',
          description: 'Archive packages (RFC 8493) made and checked; on the station’s own computer only',
        },
        { name: 'verification', description: 'Originals and copies read again' },
        { name: 'strike', description: 'May the set come down' },
        { name: 'undo', description: 'What was chosen and can be taken back' },
        { name: 'arrivals', description: 'Files on their way in' },
        { name: 'events', description: 'What happens, as it happens' },
      ],
    },
    transform: jsonSchemaTransform,
    transformObject: (document) => withoutUnused(jsonSchemaTransformObject(document)),
  });
}

export function openApiRoute(app: WebApp): void {
  app.get(openApiPath, { schema: { hide: true } }, async () => app.swagger());
}

/** The document with those shapes only that some call refers to; the generator writes each twice, sent and received. */
function withoutUnused<Document extends object>(document: Document): Document {
  const { components, ...calls } = document as { components?: { schemas?: Record<string, unknown> } };
  const schemas = components?.schemas ?? {};
  const used = new Set<string>();
  const follow = (value: unknown): void => {
    for (const [, name] of JSON.stringify(value).matchAll(/"#\/components\/schemas\/([^"]+)"/g)) {
      if (name === undefined || used.has(name)) continue;
      used.add(name);
      follow(schemas[name] ?? null);
    }
  };
  follow(calls);
  const kept = Object.fromEntries(Object.entries(schemas).filter(([name]) => used.has(name)));
  return { ...document, components: { ...components, schemas: kept } };
}
