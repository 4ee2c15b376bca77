/**
 * The reference page of the HTTP calls, rendered from the OpenAPI document: what the station checks, the document
 * describes and the page shows is one text. Reads the parts of OpenAPI 3.1 that our document uses.
 */
export function apiPage(document: object): string {
  const api = document as ApiDocument;
  const parts = [
    '# The HTTP calls',
    'Generated from `/api/openapi.json` by `node scripts/api-docs.mjs`. Do not edit.',
    api.info.description,
    ...api.tags.map((tag) => tagSection(api, tag)),
    '## Shapes',
    ...Object.entries(api.components.schemas).map(([name, schema]) => shapeSection(name, schema)),
  ];
  return `${parts.join('\n\n')}\n`;
}

interface ApiDocument {
  readonly info: { readonly description: string };
  readonly tags: readonly Tag[];
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
  readonly components: { readonly schemas: Readonly<Record<string, Schema>> };
}

interface Tag {
  readonly name: string;
  readonly description: string;
}

interface Operation {
  readonly tags: readonly string[];
  readonly summary: string;
  readonly parameters?: readonly Parameter[];
  readonly requestBody?: { readonly content: Content };
  readonly responses: Readonly<Record<string, { readonly description: string; readonly content?: Content }>>;
}

interface Parameter {
  readonly name: string;
  readonly in: string;
  readonly schema: Schema;
  readonly description?: string;
}

type Content = Readonly<Record<string, { readonly schema?: Schema }>>;

interface Schema {
  readonly $ref?: string;
  readonly type?: string | readonly string[];
  readonly description?: string;
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly items?: Schema;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly additionalProperties?: boolean | Schema;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly default?: unknown;
}

function tagSection(api: ApiDocument, tag: Tag): string {
  const calls = Object.entries(api.paths).flatMap(([path, item]) =>
    Object.entries(item)
      .filter(([, operation]) => operation.tags.includes(tag.name))
      .map(([method, operation]) => callSection(method, path, operation)),
  );
  return [`## ${tag.description}`, ...calls].join('\n\n');
}

function callSection(method: string, path: string, operation: Operation): string {
  const lines = [`### \`${method.toUpperCase()} ${path}\``, `${operation.summary}.`];
  const parameters = operation.parameters ?? [];
  if (parameters.length > 0)
    lines.push(table(['value', 'in', 'type', 'meaning'], parameters.map(parameterRow)));
  if (operation.requestBody !== undefined) lines.push(`Body: ${contentText(operation.requestBody.content)}`);
  const answers = Object.entries(operation.responses).map(([status, answer]) => [
    status,
    answer.content === undefined ? '' : contentText(answer.content),
    answer.description,
  ]);
  lines.push(table(['status', 'answer', 'meaning'], answers));
  return lines.join('\n\n');
}

function parameterRow(parameter: Parameter): readonly string[] {
  const { schema } = parameter;
  const preset =
    schema.default === undefined ? '' : `; ${JSON.stringify(schema.default)} where it is left out`;
  const meaning = parameter.description ?? schema.description ?? '';
  return [`\`${parameter.name}\``, parameter.in, typeText(schema) + preset, meaning];
}

function contentText(content: Content): string {
  return Object.entries(content)
    .map(([type, { schema }]) => {
      const shape = schema === undefined ? '' : typeText(schema);
      return shape === '' ? `\`${type}\`` : `\`${type}\`: ${shape}`;
    })
    .join(', ');
}

function shapeSection(name: string, schema: Schema): string {
  const lines = [`### ${name}`];
  if (schema.description !== undefined) lines.push(`${schema.description}.`);
  const kinds = schema.oneOf ?? schema.anyOf;
  if (kinds === undefined) lines.push(propertyTable(schema));
  else for (const kind of kinds) lines.push(propertyTable(kind));
  return lines.join('\n\n');
}

function propertyTable(schema: Schema): string {
  const rows = Object.entries(schema.properties ?? {}).map(([name, property]) => [
    `\`${name}\``,
    typeText(property),
    property.description ?? '',
  ]);
  return table(['field', 'type', 'meaning'], rows);
}

/** A type in a few words: a name from "Shapes", a bound, the values it may have. Empty where it says nothing. */
function typeText(schema: Schema): string {
  if (schema.$ref !== undefined) {
    const name = schema.$ref.split('/').at(-1) ?? '';
    return `[${name}](#${name.toLowerCase()})`;
  }
  const kinds = schema.anyOf ?? schema.oneOf;
  if (kinds !== undefined) return kinds.map(typeText).join(' or ');
  if (schema.const !== undefined) return `\`${JSON.stringify(schema.const)}\``;
  if (schema.enum !== undefined) return schema.enum.map((value) => `\`${JSON.stringify(value)}\``).join(', ');
  if (schema.items !== undefined) return `list of ${typeText(schema.items)}`;
  if (schema.properties !== undefined) return objectText(schema.properties);
  if (typeof schema.additionalProperties === 'object') {
    return `map from text to ${typeText(schema.additionalProperties)}`;
  }
  return [schema.type ?? ''].flat().join(' or ') + boundText(schema);
}

function objectText(properties: Readonly<Record<string, Schema>>): string {
  const fields = Object.entries(properties).map(([name, property]) => `\`${name}\`: ${typeText(property)}`);
  return `{ ${fields.join(', ')} }`;
}

/** The bounds that somebody chose; those of a double's whole numbers say nothing. */
function boundText({ minimum, maximum }: Schema): string {
  const low = minimum === undefined || minimum === Number.MIN_SAFE_INTEGER ? null : minimum;
  const high = maximum === undefined || maximum === Number.MAX_SAFE_INTEGER ? null : maximum;
  if (low !== null && high !== null) return ` ${low} to ${high}`;
  if (low !== null) return ` from ${low}`;
  return high === null ? '' : ` up to ${high}`;
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]): string =>
    `| ${cells.map((cell) => cell.replaceAll('|', '\\|').replaceAll('\n', ' ')).join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}
