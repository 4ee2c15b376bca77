import { z } from 'zod';
import {
  delivery,
  deliveryChange,
  deliveryList,
  deliveryPlan,
  type NewDelivery,
  newDelivery,
  specificationList,
} from '../../contract/index.ts';
import {
  readSpecification,
  type Specification,
  specificationNamed,
  specifications,
} from '../../deliver/index.ts';
import type { Finding } from '../../facts/index.ts';
import { sentence } from '../../words/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
import { sheetOrRefuse } from '../sheet-or-refuse.ts';
import type { WebApp } from '../web-app.ts';
import { codeOrId, id } from './path-values.ts';

const params = z.object({ delivery: id });

/** What is handed over: begun, looked at, paused, ended. */
export function deliveryRoutes(app: WebApp, desk: StationDesk): void {
  app.get(
    '/api/v1/deliveries',
    {
      schema: {
        tags: ['deliveries'],
        operationId: 'listDeliveries',
        summary: 'Deliveries, the newest first',
        querystring: z.strictObject({
          job: codeOrId.optional().describe('Code of a job; all where left out'),
        }),
        response: { 200: jsonAnswer('The deliveries', deliveryList), ...problemAnswers('bad-value') },
      },
    },
    async (request) => ({ deliveries: [...(await desk.deliveries(request.query.job))] }),
  );
  app.post(
    '/api/v1/deliveries',
    {
      schema: {
        tags: ['deliveries'],
        operationId: 'deliver',
        summary: 'Begins a delivery: files to a specification, made behind everything else',
        body: newDelivery,
        response: {
          201: jsonAnswer('The delivery as it begins', delivery),
          ...problemAnswers(
            'bad-value',
            'no-job',
            'no-frame',
            'bad-specification',
            'bad-metadata',
            'no-such-specification',
            'nothing-to-deliver',
            'no-destination',
            'bad-destination',
            'cannot-write-there',
            'not-json',
          ),
        },
      },
    },
    async (request, reply) => {
      const { job, frames, specification, metadata } = request.body;
      const sheet = metadata == null ? null : sheetOrRefuse(metadata);
      const wish = { job, frames, specification: specificationOrRefuse(specification), sheet };
      return reply.code(201).send(await desk.deliver(wish));
    },
  );
  app.get(
    '/api/v1/deliveries/specifications',
    {
      schema: {
        tags: ['deliveries'],
        operationId: 'listSpecifications',
        summary: 'Specifications that come with the station, every value of them',
        response: { 200: jsonAnswer('The specifications', specificationList), ...problemAnswers() },
      },
    },
    async () => ({
      specifications: Object.entries(specifications).map(([name, specification]) => ({
        name,
        specification,
      })),
    }),
  );
  app.post(
    '/api/v1/deliveries/plan',
    {
      schema: {
        tags: ['deliveries'],
        operationId: 'planDelivery',
        summary: 'What a delivery would make and what would be said of it; nothing is made',
        body: newDelivery,
        response: {
          200: jsonAnswer('The plan', deliveryPlan),
          ...problemAnswers(
            'bad-value',
            'no-job',
            'no-frame',
            'bad-specification',
            'bad-metadata',
            'no-such-specification',
            'nothing-to-deliver',
            'not-json',
          ),
        },
      },
    },
    async (request) => {
      const { job, frames, specification, metadata } = request.body;
      const sheet = metadata == null ? null : sheetOrRefuse(metadata);
      return desk.planDelivery({ job, frames, specification: specificationOrRefuse(specification), sheet });
    },
  );
  app.get(
    '/api/v1/deliveries/:delivery',
    {
      schema: {
        tags: ['deliveries'],
        operationId: 'getDelivery',
        summary: 'A delivery with its files and what is to be said of each',
        params,
        response: { 200: jsonAnswer('The delivery', delivery), ...problemAnswers('not-found') },
      },
    },
    async (request) => orNotFound(await desk.delivery(request.params.delivery)),
  );
  app.patch(
    '/api/v1/deliveries/:delivery',
    {
      schema: {
        tags: ['deliveries'],
        operationId: 'changeDelivery',
        summary: 'Pauses a delivery, lets it go on, or ends it; what is made stays',
        params,
        body: deliveryChange,
        response: {
          200: jsonAnswer('The delivery after the change', delivery),
          ...problemAnswers('bad-value', 'not-found', 'delivery-ended', 'not-json'),
        },
      },
    },
    async (request) => orNotFound(await desk.changeDelivery(request.params.delivery, request.body)),
  );
}

function specificationOrRefuse(wish: NewDelivery['specification']): Specification {
  if (typeof wish === 'string') {
    const found = specificationNamed(wish);
    if (found !== null) return found.specification;
    const names = Object.keys(specifications).join(', ');
    throw new Refusal('no-such-specification', `no specification is called ${wish}; there are ${names}`);
  }
  const read = readSpecification(wish);
  if (read.specification === null) throw refusalOf(read.findings);
  return read.specification;
}

function refusalOf(findings: readonly Finding[]): Refusal {
  return new Refusal('bad-specification', findings.map((each) => sentence(each)).join(' '), findings[0]);
}

function orNotFound<T>(found: T | null): T {
  if (found === null) throw new Refusal('not-found', 'there is no such delivery');
  return found;
}
