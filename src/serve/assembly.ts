import fastify from 'fastify';
import { serializerCompiler, validatorCompiler, type ZodTypeProvider } from 'fastify-type-provider-zod';
import { answerBrokenRequest } from './broken-request.ts';
import { CallBounds } from './call-bounds.ts';
import { defaultWebLimits } from './core/limits.ts';
import type { StationDesk } from './desk.ts';
import { EventStreams, type EventStreamsOptions } from './event-streams.ts';
import { frameworkLog } from './framework-log.ts';
import { guardCallers } from './guard.ts';
import { describeApi, openApiRoute } from './openapi.ts';
import { closeOtherMethods } from './other-methods.ts';
import { answerProblems, sendProblem, toProblem } from './problems.ts';
import { acceptanceRoutes } from './routes/acceptance-routes.ts';
import { agreementRoutes } from './routes/agreement-routes.ts';
import { arrivalRoutes } from './routes/arrival-routes.ts';
import { bagRoutes } from './routes/bag-routes.ts';
import { cameraRoutes } from './routes/camera-routes.ts';
import { cardRoutes } from './routes/card-routes.ts';
import { clientRoutes } from './routes/client-routes.ts';
import { deliveryRoutes } from './routes/delivery-routes.ts';
import { destinationRoutes } from './routes/destination-routes.ts';
import { eventRoutes } from './routes/event-routes.ts';
import { fileRoutes } from './routes/file-routes.ts';
import { frameRoutes } from './routes/frame-routes.ts';
import { jobRoutes } from './routes/job-routes.ts';
import { layoutRoutes } from './routes/layout-routes.ts';
import { linkRoutes } from './routes/link-routes.ts';
import { lookRoutes } from './routes/look-routes.ts';
import { metadataRoutes } from './routes/metadata-routes.ts';
import { pageRoutes, servePageFiles } from './routes/page-routes.ts';
import { paperRoutes } from './routes/paper-routes.ts';
import { pictureRoutes } from './routes/picture-routes.ts';
import { readingRoutes } from './routes/reading-routes.ts';
import { regionRoutes } from './routes/region-routes.ts';
import { rehearsalRoutes } from './routes/rehearsal-routes.ts';
import { remarkRoutes } from './routes/remark-routes.ts';
import { scaleRoutes } from './routes/scale-routes.ts';
import { sceneRoutes } from './routes/scene-routes.ts';
import { shotListRoutes } from './routes/shot-list-routes.ts';
import { shotRoutes } from './routes/shot-routes.ts';
import { stationRoutes } from './routes/station-routes.ts';
import { strikeRoutes } from './routes/strike-routes.ts';
import { targetRoutes } from './routes/target-routes.ts';
import { tryRoutes } from './routes/try-routes.ts';
import { undoRoutes } from './routes/undo-routes.ts';
import { verificationRoutes } from './routes/verification-routes.ts';
import { xmpRoutes } from './routes/xmp-routes.ts';
import { securityHeaders, setSecurityHeaders } from './security-headers.ts';
import type { WebApp } from './web-app.ts';
import type { WebLog } from './web-log.ts';
import { connectionTimeoutMs, headersTimeoutMs, keepAliveTimeoutMs, requestTimeoutMs } from './web-times.ts';

export interface WebAppOptions extends EventStreamsOptions {
  /** Directory of the built page; it may appear later. */
  readonly pageDir: string;
  /** Version of Setside, for `/api/v1/health` and the OpenAPI document. */
  readonly version: string;
  /** Names and addresses of this computer that another device may call it by; none where nobody else is served. */
  readonly ownHosts?: () => readonly string[];
  readonly now?: () => number;
}

/** No call but that for shot lists takes more than a small JSON document; larger bodies are refused with 413 before they are read. */
export const bodyBytesMax = 1024 * 1024;

/**
 * Longest path parameter, after decoding: a file name of 255 characters of four bytes each. The router's own 100
 * would turn away names that a camera may give.
 */
export const paramLengthMax = 1024;

/** One page opens six connections at most; this is room for forty pages, and an end for a program gone wild. */
const connectionsMax = 256;

/** The web door's application, not yet listening: what `inject` is called on in tests. */
export async function createWebApp(options: WebAppOptions, desk: StationDesk, log: WebLog): Promise<WebApp> {
  const app = bareApp(log);
  const streams = new EventStreams(desk.events, log, options);
  const forgetLinks = desk.onLinkEnd((link) => streams.endOf(link));
  const forgetDevices = desk.onDeviceOut((device) => streams.endOfDevice(device));
  app.addHook('preClose', async () => {
    forgetLinks();
    forgetDevices();
    streams.close();
  });
  securityHeaders(app);
  const bounds = new CallBounds({ ...defaultWebLimits, ...options.limits }, options.now ?? Date.now);
  guardCallers(app, desk, { ownHosts: options.ownHosts ?? (() => []), bounds });
  answerProblems(app, desk, log);
  await describeApi(app, options.version);
  await servePageFiles(app, options.pageDir);
  closeOtherMethods(app, () => {
    openApiRoute(app);
    stationRoutes(app, desk, options.version);
    cameraRoutes(app, desk);
    linkRoutes(app, desk, bounds);
    jobRoutes(app, desk);
    shotRoutes(app, desk);
    targetRoutes(app, desk);
    scaleRoutes(app, desk);
    strikeRoutes(app, desk);
    clientRoutes(app, desk);
    deliveryRoutes(app, desk);
    paperRoutes(app, desk);
    cardRoutes(app, desk);
    bagRoutes(app, desk);
    verificationRoutes(app, desk);
    destinationRoutes(app, desk);
    metadataRoutes(app, desk);
    shotListRoutes(app, desk);
    layoutRoutes(app, desk);
    rehearsalRoutes(app, desk);
    undoRoutes(app, desk);
    lookRoutes(app, desk);
    tryRoutes(app, desk);
    frameRoutes(app, desk);
    acceptanceRoutes(app, desk);
    remarkRoutes(app, desk, bounds);
    agreementRoutes(app, desk, bounds);
    pictureRoutes(app, desk);
    regionRoutes(app, desk);
    sceneRoutes(app, desk);
    readingRoutes(app, desk);
    fileRoutes(app, desk);
    xmpRoutes(app, desk);
    arrivalRoutes(app, desk);
    eventRoutes(app, streams);
    pageRoutes(app, options.pageDir);
  });
  await app.ready();
  return app;
}

function bareApp(log: WebLog): WebApp {
  const app = fastify({
    loggerInstance: frameworkLog(log),
    bodyLimit: bodyBytesMax,
    connectionTimeout: connectionTimeoutMs,
    requestTimeout: requestTimeoutMs,
    keepAliveTimeout: keepAliveTimeoutMs,
    http: { headersTimeout: headersTimeoutMs },
    forceCloseConnections: 'idle',
    routerOptions: { maxParamLength: paramLengthMax },
    clientErrorHandler: answerBrokenRequest,
    // Addresses that the router cannot read never reach a hook.
    frameworkErrors: (error, request, reply) => {
      setSecurityHeaders(reply);
      sendProblem(request, reply, toProblem(error));
    },
  }).withTypeProvider<ZodTypeProvider>();
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  app.removeContentTypeParser('text/plain');
  app.server.maxConnections = connectionsMax;
  return app;
}
