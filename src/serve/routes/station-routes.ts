import { health, lineCheck, station } from '../../contract/index.ts';
import { bytesAnswer, jsonAnswer, problemAnswers } from '../answers.ts';
import { attachmentDisposition } from '../core/attachment-name.ts';
import type { RootCertificate, StationDesk } from '../desk.ts';
import { Refusal } from '../errors.ts';
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
  app.get(
    '/api/v1/line',
    {
      schema: {
        tags: ['station'],
        operationId: 'getLine',
        summary:
          'The line check: whether the way from camera to station is open, and where it is shut if not',
        response: { 200: jsonAnswer('The line now', lineCheck), ...problemAnswers('operator-only') },
      },
    },
    () => desk.lineCheck(),
  );
  certificateRoute(app, desk, 'pem', 'getCertificatePem', ({ pem }) => Buffer.from(pem));
  certificateRoute(app, desk, 'crt', 'getCertificateDer', ({ der }) => Buffer.from(der));
}

/** RFC 8555 section 9.1 registers the type of PEM, RFC 2585 section 4.1 that of DER. */
const certificateTypes = { pem: 'application/pem-certificate-chain', crt: 'application/pkix-cert' } as const;

/** Both say the same; cameras differ in what they read. Nothing in it is secret. */
function certificateRoute(
  app: WebApp,
  desk: StationDesk,
  ending: keyof typeof certificateTypes,
  operationId: string,
  bytesOf: (root: RootCertificate) => Buffer,
): void {
  const type = certificateTypes[ending];
  app.get(
    `/api/v1/station/certificate.${ending}`,
    {
      schema: {
        tags: ['station'],
        operationId,
        summary: `The root certificate for cameras to import, as ${ending === 'pem' ? 'PEM' : 'DER'}`,
        response: { 200: bytesAnswer('The certificate', type), ...problemAnswers('not-found') },
      },
    },
    async (_request, reply) => {
      const root = desk.rootCertificate();
      if (root === null) throw new Refusal('not-found', 'The station has no certificate: it speaks no TLS.');
      const fileName = `${root.name.toLowerCase().replaceAll(/[^a-z0-9]+/g, '-')}.${ending}`;
      return reply
        .type(type)
        .headers({
          'content-disposition': attachmentDisposition(fileName),
          'cache-control': 'private, no-cache',
        })
        .send(bytesOf(root));
    },
  );
}
