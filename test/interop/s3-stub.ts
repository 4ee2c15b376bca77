import { createHash } from 'node:crypto';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { isSignedBy } from './s3-signature.ts';

interface Held {
  readonly bytes: Buffer;
  readonly checksum: string;
}

interface Upload {
  readonly key: string;
  readonly parts: Map<number, Buffer>;
}

/** What a service does otherwise than the one that named the interface. */
export interface StubManners {
  /** Tells no checksums. */
  readonly noChecksums?: boolean;
  /** Answers conditions with 501. */
  readonly noConditions?: boolean;
  /** Parts that one page of a list holds. */
  readonly partsOfPage?: number;
}

/**
 * A bucket for tests, as far as the program uses one: signed requests (checked by our own arithmetic), SHA-256 checksums that are checked
 * as they come, uploads in parts, conditions. Written from the Amazon S3 API Reference (from memory); no service of anybody.
 */
export class S3Stub {
  readonly accessKeyId = 'AKSETSIDETEST';
  readonly secret = 'secret/of+the-Tests7';
  readonly bucket = 'handed-over';
  readonly objects = new Map<string, Held>();
  readonly uploads = new Map<string, Upload>();
  /** `METHOD what`, in the order they came. */
  readonly calls: string[] = [];
  manners: StubManners = {};
  /** Looks at each call before it is answered; true cuts its line. */
  cutsBefore: (call: string) => boolean = () => false;
  /** The same after what was asked was done: the answer is lost. */
  cutsAfter: (call: string) => boolean = () => false;
  readonly #server: Server = createServer((request, response) => void this.#take(request, response));

  async start(): Promise<string> {
    await new Promise<void>((resolve) => this.#server.listen(0, '127.0.0.1', resolve));
    const address = this.#server.address();
    return `http://127.0.0.1:${typeof address === 'object' && address !== null ? address.port : 0}`;
  }

  async stop(): Promise<void> {
    this.#server.closeAllConnections();
    await new Promise((resolve) => this.#server.close(resolve));
  }

  async #take(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const pieces: Buffer[] = [];
    try {
      for await (const piece of request) pieces.push(piece as Buffer);
    } catch {
      return;
    }
    const body = Buffer.concat(pieces);
    const method = request.method ?? '';
    const target = request.url ?? '/';
    const url = new URL(target, 'http://stub');
    const headers = Object.fromEntries(
      Object.entries(request.headers).map(([name, value]) => [name, String(value)]),
    );
    const call = `${method} ${callName(url)}`;
    this.calls.push(call);
    if (this.cutsBefore(call)) return void request.socket.destroy();
    if (!isSignedBy({ method, target, headers }, this.accessKeyId, this.secret))
      return problem(response, 403, 'SignatureDoesNotMatch');
    const claimed = headers['x-amz-content-sha256'] ?? '';
    if (claimed !== 'UNSIGNED-PAYLOAD' && claimed !== createHash('sha256').update(body).digest('hex'))
      return problem(response, 400, 'XAmzContentSHA256Mismatch');
    const [, bucket = '', ...rest] = url.pathname.split('/');
    if (bucket !== this.bucket) return problem(response, 404, 'NoSuchBucket');
    const key = decodeURIComponent(rest.join('/'));
    const answer = this.#answer(method, key, url.searchParams, headers, body);
    if (this.cutsAfter(call)) return void request.socket.destroy();
    answer(response);
  }

  #answer(
    method: string,
    key: string,
    query: URLSearchParams,
    headers: Readonly<Record<string, string>>,
    body: Buffer,
  ): (response: ServerResponse) => void {
    const refuse = (status: number, code: string) => (response: ServerResponse) =>
      problem(response, status, code);
    const said = headers['x-amz-checksum-sha256'];
    if (method === 'PUT' && said !== undefined && said !== sha256(body)) return refuse(400, 'BadDigest');
    const upload = this.uploads.get(query.get('uploadId') ?? '');
    if (query.has('uploadId') && upload?.key !== key) return refuse(404, 'NoSuchUpload');
    const isCondition = headers['if-none-match'] !== undefined;
    if (isCondition && this.manners.noConditions === true) return refuse(501, 'NotImplemented');
    const isTaken = isCondition && this.objects.has(key);
    if (method === 'POST' && query.has('uploads')) {
      const id = `upload-${this.uploads.size + 1}`;
      this.uploads.set(id, { key, parts: new Map() });
      return xml(`<InitiateMultipartUploadResult><UploadId>${id}</UploadId></InitiateMultipartUploadResult>`);
    }
    if (method === 'PUT' && upload !== undefined) {
      upload.parts.set(Number(query.get('partNumber')), body);
      return (response) => void response.writeHead(200, { etag: etag(body) }).end();
    }
    if (method === 'GET' && upload !== undefined) return this.#list(upload, query);
    if (method === 'DELETE' && upload !== undefined) {
      this.uploads.delete(query.get('uploadId') ?? '');
      return (response) => void response.writeHead(204).end();
    }
    if (method === 'POST' && upload !== undefined) {
      if (isTaken) return refuse(412, 'PreconditionFailed');
      return this.#complete(key, query.get('uploadId') ?? '', upload, body.toString());
    }
    if (method === 'PUT') {
      if (isTaken) return refuse(412, 'PreconditionFailed');
      this.objects.set(key, { bytes: body, checksum: sha256(body) });
      return (response) => void response.writeHead(200, { etag: etag(body) }).end();
    }
    if (method === 'DELETE') {
      this.objects.delete(key);
      return (response) => void response.writeHead(204).end();
    }
    const held = this.objects.get(key);
    if (held === undefined) return refuse(404, 'NoSuchKey');
    const told = this.manners.noChecksums === true ? {} : { 'x-amz-checksum-sha256': held.checksum };
    const length = { 'content-length': held.bytes.length, etag: etag(held.bytes) };
    return (response) => {
      response.writeHead(200, { ...length, ...told });
      response.end(method === 'HEAD' ? undefined : held.bytes);
    };
  }

  #list({ parts }: Upload, query: URLSearchParams): (response: ServerResponse) => void {
    const { partsOfPage = 1000, noChecksums } = this.manners;
    const after = Number(query.get('part-number-marker') ?? 0);
    const all = [...parts].sort(([a], [b]) => a - b).filter(([number]) => number > after);
    const page = all.slice(0, partsOfPage);
    const rows = page.map(([number, bytes]) => {
      const checksum = noChecksums === true ? '' : `<ChecksumSHA256>${sha256(bytes)}</ChecksumSHA256>`;
      return `<Part><PartNumber>${number}</PartNumber><ETag>${etag(bytes)}</ETag><Size>${bytes.length}</Size>${checksum}</Part>`;
    });
    const more = all.length > page.length;
    return xml(
      `<ListPartsResult><IsTruncated>${more}</IsTruncated><NextPartNumberMarker>${page.at(-1)?.[0] ?? 0}</NextPartNumberMarker>${rows.join('')}</ListPartsResult>`,
    );
  }

  #complete(key: string, id: string, upload: Upload, said: string): (response: ServerResponse) => void {
    const numbers = [...said.matchAll(/<PartNumber>(\d+)<\/PartNumber>/g)].map(([, number]) =>
      Number(number),
    );
    const parts = numbers.map((number) => upload.parts.get(number));
    if (parts.some((part) => part === undefined)) return (response) => problem(response, 400, 'InvalidPart');
    const whole = parts.flatMap((part) => part ?? []);
    const hashes = Buffer.concat(whole.map((part) => createHash('sha256').update(part).digest()));
    this.objects.set(key, { bytes: Buffer.concat(whole), checksum: `${sha256(hashes)}-${whole.length}` });
    this.uploads.delete(id);
    return xml(`<CompleteMultipartUploadResult><Key>${key}</Key></CompleteMultipartUploadResult>`);
  }
}

function callName({ searchParams }: URL): string {
  if (searchParams.has('partNumber')) return `part ${searchParams.get('partNumber')}`;
  if (searchParams.has('uploads')) return 'begin';
  return searchParams.has('uploadId') ? 'upload' : 'object';
}

function sha256(bytes: Buffer): string {
  return createHash('sha256').update(bytes).digest('base64');
}

function etag(bytes: Buffer): string {
  return `"${createHash('md5').update(bytes).digest('hex')}"`;
}

function xml(text: string): (response: ServerResponse) => void {
  return (response) => void response.writeHead(200, { 'content-type': 'application/xml' }).end(text);
}

function problem(response: ServerResponse, status: number, code: string): void {
  response.writeHead(status, { 'content-type': 'application/xml' });
  response.end(`<Error><Code>${code}</Code><Message>${code}</Message></Error>`);
}
