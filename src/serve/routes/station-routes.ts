import { health, station } from '../../contract/index.ts';
import { jsonAnswer, problemAnswers } from '../answers.ts';
import type { StationDesk } from '../desk.ts';
import { callerOf } from '../guard.ts';
import type { WebApp } from '../web-app.ts';

export function stationRoutes(app: WebApp, desk: StationDesk, version: string): void {
  app.get(
    '/api/v1/station',
    {
      schema: {
        tags: ['station'],
        operationId: 'getStation',
        summary: 'The running station: addresses, doors, disk, cameras, the open job, now',
        response: { 200: jsonAnswer('The station now', station), ...problemAnswers() },
      },
    },
    (request) => desk.station(callerOf(request).scope === 'operator'),
  );
  app.get(
    '/api/v1/health',
    {
      schema: {
        tags: ['station'],
        operationId: 'getHealth',
        summary: 'Whether the station answers',
        response: { 200: jsonAnswer('It does', health), ...problemAnswers() },
      },
    },
    async () => ({ status: 'ok' as const, version }),
  );
}
