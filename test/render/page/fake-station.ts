import { readFile } from 'node:fs/promises';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';
import sharp from 'sharp';
import type { ActEntry, Frame, Job, LineCheck, Station, StationEvent } from '../../../src/contract/index.ts';
import { framePatch, jobPatch } from '../../../src/contract/index.ts';
import { sampleJob } from '../../../src/contract/testing/sample-job.ts';
import { sampleStation } from '../../../src/page/testing/sample-frame.ts';
import { sampleLine } from '../../../src/page/testing/sample-line.ts';

/** What a frame's two picture calls answer; missing ones answer 404. */
export interface FramePictures {
  readonly firstView?: Buffer;
  readonly rendering?: Buffer;
}

export interface AskedRegion {
  readonly frame: string;
  readonly left: number;
  readonly top: number;
  /** The page no longer wanted it. */
  hungUp: boolean;
}

/** The strictest policy the real station may send: nothing inline, nothing from elsewhere, no eval. */
const securityPolicy =
  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; font-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
};

/** Speaks the calls the page needs, with frames that a test puts there. Keeps nothing, receives nothing. */
export class FakeStation {
  readonly #pageDir: string;
  readonly #frames = new Map<string, Frame>();
  readonly #pictures = new Map<string, FramePictures>();
  readonly #ears = new Set<ServerResponse>();
  readonly patches: unknown[] = [];
  /** Parts of pictures at full size in the order they were asked for. */
  readonly regions: AskedRegion[] = [];
  /** So many of the next parts are answered 503. */
  regionsToFail = 0;
  /** Frames per page of the listing, small so that paging is exercised. */
  listingLimitMax = 50;
  station: Station = sampleStation();
  line: LineCheck = sampleLine;
  /** Null: the job that the station names, as its summary has it. */
  jobs: Job[] | null = null;
  /** What can be taken back, the newest first. */
  acts: ActEntry[] = [];
  /** What every change is answered with; null where it is taken. */
  refuse: { status: number; code: string; title: string; cure: string | null } | null = null;
  /** Acts that were asked to be taken back; null for the newest. */
  readonly undone: (string | null)[] = [];
  /** The newest first. */
  readonly takenBack: ActEntry[] = [];
  #server: Server | null = null;
  #port = 0;
  #eventId = 0;
  #pictureGate: Promise<void> = Promise.resolve();
  #regionGate: Promise<void> = Promise.resolve();

  constructor(pageDir: string) {
    this.#pageDir = pageDir;
  }

  get url(): string {
    return `http://127.0.0.1:${this.#port}/`;
  }

  /** Pages that listen at the moment. */
  get listeners(): number {
    return this.#ears.size;
  }

  /** Starts, on the same port after a stop. */
  async start(): Promise<void> {
    const server = createServer((request, response) => {
      this.#answer(request, response).catch(() => response.destroy());
    });
    this.#server = server;
    await new Promise<void>((resolve) => server.listen(this.#port, '127.0.0.1', resolve));
    // A listening TCP server has an AddressInfo; the string form is for pipes.
    this.#port = (server.address() as AddressInfo).port;
  }

  /** Gone without a word, as when the cable is pulled. */
  async stop(): Promise<void> {
    const server = this.#server;
    this.#server = null;
    this.#ears.clear();
    server?.closeAllConnections();
    await new Promise<void>((resolve) => (server === null ? resolve() : server.close(() => resolve())));
  }

  put(frame: Frame, pictures: FramePictures = {}): void {
    this.#frames.set(frame.id, frame);
    this.#pictures.set(frame.id, { ...this.#pictures.get(frame.id), ...pictures });
  }

  frame(id: string): Frame {
    const frame = this.#frames.get(id);
    if (frame === undefined) throw new Error(`the test put no frame ${id}`);
    return frame;
  }

  /** Changes a frame, one version on, and tells it. */
  change(id: string, change: Partial<Frame>, pictures: FramePictures = {}): void {
    const before = this.frame(id);
    const frame = { ...before, ...change, version: before.version + 1 };
    this.put(frame, pictures);
    this.tell({ type: 'frame', change: 'rendered', frame });
  }

  /** A new frame on its way. */
  begin(frame: Frame, pictures: FramePictures = {}): void {
    this.put(frame, pictures);
    this.tell({ type: 'arrival', change: 'started', frame });
  }

  /** As the real one: events tell no passwords, and what they tell of the station is what it answers from then on. */
  tell(event: StationEvent): void {
    this.#eventId += 1;
    if (event.type === 'line') this.station = event.station;
    const text = `id: ${this.#eventId}\nevent: ${event.type}\ndata: ${JSON.stringify(withoutPasswords(event))}\n\n`;
    for (const ear of this.#ears) ear.write(text);
  }

  /** Renderings asked for from now on wait until the returned function is called. */
  holdPictures(): () => void {
    let open = (): void => undefined;
    this.#pictureGate = new Promise((resolve) => {
      open = resolve;
    });
    return open;
  }

  /** The same for parts of pictures. */
  holdRegions(): () => void {
    let open = (): void => undefined;
    this.#regionGate = new Promise((resolve) => {
      open = resolve;
    });
    return open;
  }

  async #answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const url = new URL(request.url ?? '/', this.url);
    const [, id, call] = /^\/api\/v1\/frames\/([^/]+)(?:\/(.+))?$/.exec(url.pathname) ?? [];
    if (url.pathname === '/api/v1/station') return json(response, this.station);
    if (url.pathname === '/api/v1/line') return json(response, this.line);
    if (url.pathname === '/api/v1/diary') return json(response, { lines: [], next: null });
    if (url.pathname === '/api/v1/frames') return json(response, this.#listing(url));
    if (url.pathname === '/api/v1/client') return json(response, { screens: [] });
    if (url.pathname === '/api/v1/jobs') return json(response, { jobs: this.#jobList() });
    if (url.pathname === '/api/v1/undo') return this.#undo(request, response);
    if (url.pathname === '/api/v1/undo/back') return this.#putBack(response);
    if (this.refuse !== null && request.method !== 'GET') return refusal(response, this.refuse);
    const [, code, about] = /^\/api\/v1\/jobs\/([^/]+)(\/.+)?$/.exec(url.pathname) ?? [];
    if (code !== undefined && about === undefined) return this.#jobCall(request, response, code);
    if (code !== undefined || call?.startsWith('acceptances/')) return this.#noted(request, response);
    if (url.pathname === '/api/v1/events') return this.#listen(response);
    if (id !== undefined && call === undefined) return this.#frameCall(request, response, id);
    if (id !== undefined && call === 'first-view')
      return picture(response, this.#pictures.get(id)?.firstView);
    if (id !== undefined && call === 'picture') return this.#rendering(response, id, url);
    if (id !== undefined && call === 'region') return this.#region(response, id, url);
    return this.#file(response, url.pathname);
  }

  #jobList(): Job[] {
    const { job } = this.station;
    if (this.jobs !== null) return this.jobs;
    if (job === null) return [];
    const shots = job.shots.map(({ id, name }) => ({ id, name }));
    return [sampleJob({ ...job, shots, currentShot: job.currentShot ?? null, state: 'open' })];
  }

  async #undo(request: IncomingMessage, response: ServerResponse): Promise<void> {
    if (request.method === 'GET') return json(response, { acts: this.acts, told: [] });
    const asked: { act?: string } = JSON.parse(await bodyOf(request));
    this.undone.push(asked.act ?? null);
    const [newest] = this.acts.splice(0, 1);
    if (newest !== undefined) this.takenBack.unshift(newest);
    return json(response, newest);
  }

  #putBack(response: ServerResponse): void {
    const [act] = this.takenBack.splice(0, 1);
    if (act !== undefined) this.acts.unshift(act);
    json(response, act);
  }

  /** A change is told as the real one tells it: the job, and the station that names it. */
  async #jobCall(request: IncomingMessage, response: ServerResponse, code: string): Promise<void> {
    const patch = jobPatch.parse(JSON.parse(await bodyOf(request)));
    this.patches.push(patch);
    const before = this.#jobList().find((job) => job.code === code) ?? sampleJob({ code });
    const job = { ...before, ...patch, version: before.version + 1 } as Job;
    this.jobs = [job, ...this.#jobList().filter((other) => other.code !== code)];
    this.tell({ type: 'job', code, job });
    const { title, client, shots, currentShot } = job;
    this.tell({
      type: 'line',
      station: { ...this.station, job: { code, title, client, shots, currentShot } },
    });
    return json(response, job);
  }

  /** A change that only its caller is told of. */
  async #noted(request: IncomingMessage, response: ServerResponse): Promise<void> {
    this.patches.push(JSON.parse(await bodyOf(request)));
    return json(response, {});
  }

  #listing(url: URL): unknown {
    const inOrder = [...this.#frames.values()];
    const frames = url.searchParams.get('order') === 'newest' ? inOrder.reverse() : inOrder;
    const limit = Math.min(Number(url.searchParams.get('limit') ?? 50), this.listingLimitMax);
    const from = Number(url.searchParams.get('after') ?? 0);
    const next = from + limit < frames.length ? String(from + limit) : null;
    return { frames: frames.slice(from, from + limit), next };
  }

  #listen(response: ServerResponse): void {
    response.writeHead(200, { 'content-type': 'text/event-stream', 'cache-control': 'no-store' });
    response.write(': here\n\n');
    this.#ears.add(response);
    response.on('close', () => this.#ears.delete(response));
  }

  async #frameCall(request: IncomingMessage, response: ServerResponse, id: string): Promise<void> {
    if (request.method !== 'PATCH') return json(response, this.frame(id));
    const patch = framePatch.parse(JSON.parse(await bodyOf(request)));
    this.patches.push(patch);
    const frame = { ...this.frame(id), ...patch, version: this.frame(id).version + 1 } as Frame;
    this.put(frame);
    this.tell({ type: 'frame', change: patch.mark === undefined ? 'moved' : 'marked', frame });
    return json(response, frame);
  }

  async #rendering(response: ServerResponse, id: string, url: URL): Promise<void> {
    await this.#pictureGate;
    const source = this.#pictures.get(id)?.rendering;
    if (source === undefined) return picture(response, undefined);
    const asked = url.searchParams.get('width');
    const full = (await sharp(source).metadata()).width ?? 0;
    // Without a width: the base, half the size of a raw.
    const width = asked === null ? Math.ceil(full / 2) : Number(asked);
    const resized = await sharp(source)
      .resize({ width, withoutEnlargement: true })
      .jpeg({ quality: 95, chromaSubsampling: '4:4:4' })
      .keepIccProfile()
      .toBuffer();
    picture(response, resized);
  }

  /** The rendering is taken for the picture at full size; sent as PNG, so that every pixel can be told. */
  async #region(response: ServerResponse, id: string, url: URL): Promise<void> {
    const asked = (name: string): number => Number(url.searchParams.get(name));
    const region: AskedRegion = { frame: id, left: asked('left'), top: asked('top'), hungUp: false };
    this.regions.push(region);
    response.on('close', () => {
      region.hungUp = !response.writableFinished;
    });
    if (this.regionsToFail > 0) {
      this.regionsToFail -= 1;
      response.writeHead(503).end();
      return;
    }
    await this.#regionGate;
    const { left, top } = region;
    const part = await sharp(this.#pictures.get(id)?.rendering)
      .extract({ left, top, width: asked('width'), height: asked('height') })
      .png({ compressionLevel: 1 })
      .toBuffer();
    response.writeHead(200, { 'content-type': 'image/png' }).end(part);
  }

  async #file(response: ServerResponse, path: string): Promise<void> {
    const name = normalize(path === '/' ? '/index.html' : path);
    try {
      const bytes = await readFile(join(this.#pageDir, name));
      response.writeHead(200, {
        'content-type': types[extname(name)] ?? 'application/octet-stream',
        'content-security-policy': securityPolicy,
      });
      response.end(bytes);
    } catch {
      response.writeHead(404).end();
    }
  }
}

function refusal(response: ServerResponse, problem: NonNullable<FakeStation['refuse']>): void {
  response.writeHead(problem.status, { 'content-type': 'application/problem+json' });
  response.end(JSON.stringify({ type: 'about:blank', detail: '', ...problem }));
}

async function bodyOf(request: IncomingMessage): Promise<string> {
  const chunks: Buffer[] = [];
  for await (const chunk of request) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks).toString('utf8');
}

function json(response: ServerResponse, body: unknown): void {
  response.writeHead(200, { 'content-type': 'application/json' }).end(JSON.stringify(body));
}

function picture(response: ServerResponse, bytes: Buffer | undefined): void {
  if (bytes === undefined) response.writeHead(404).end();
  else response.writeHead(200, { 'content-type': 'image/jpeg' }).end(bytes);
}

function withoutPasswords(event: StationEvent): StationEvent {
  if (event.type !== 'line') return event;
  const cameras = event.station.cameras.map((camera) => ({ ...camera, password: null }));
  return { ...event, station: { ...event.station, cameras } };
}
