/** What a sidecar of ours says of a frame; texts may be empty, and are then left out. */
export interface SidecarFacts {
  /** `xmp:Rating`, -1 to 5. */
  readonly rating: number;
  /** IPTC Title: a short name of the picture. */
  readonly title: string;
  /** IPTC Description. */
  readonly description: string;
  /** IPTC Event Name: what it was taken for. */
  readonly event: string;
  /** IPTC Sublocation: where. */
  readonly location: string;
  /** IPTC Keywords. */
  readonly keywords: readonly string[];
  /** What is said by `dc:identifier`: unique in its context (the frame's id). */
  readonly identifier: string;
}

/** The program that wrote a sidecar, by `xmp:CreatorTool`. */
export const sidecarTool = 'Setside';

/** In the place of `xmpMM:InstanceID` while that is not known, which is made of the text itself. */
export const noInstance = 'urn:sha256:';

/**
 * The text of an XMP sidecar: packet wrapper and RDF form after ISO 16684-1:2019, 7.3 and 7.4; `xmp:` basic 8.4, `dc:` 8.3,
 * `xmpMM:` 8.6; `Iptc4xmpCore:` and `Iptc4xmpExt:` after the IPTC Photo Metadata Standard (from memory). `instance` stands in
 * `xmpMM:InstanceID`.
 */
export function writeXmp(facts: SidecarFacts, instance: string = noInstance): string {
  const { rating, title, description, event, location, keywords, identifier } = facts;
  const properties = [
    ...alternative('dc:title', title),
    ...alternative('dc:description', description),
    ...bag('dc:subject', keywords),
    ...simple('dc:identifier', identifier),
    ...simple('Iptc4xmpCore:Location', location),
    ...alternative('Iptc4xmpExt:Event', event),
  ];
  return `<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
 <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
  <rdf:Description rdf:about=""
    xmlns:xmp="http://ns.adobe.com/xap/1.0/"
    xmlns:xmpMM="http://ns.adobe.com/xap/1.0/mm/"
    xmlns:dc="http://purl.org/dc/elements/1.1/"
    xmlns:Iptc4xmpCore="http://iptc.org/std/Iptc4xmpCore/1.0/xmlns/"
    xmlns:Iptc4xmpExt="http://iptc.org/std/Iptc4xmpExt/2008-02-29/"
    xmp:CreatorTool="${sidecarTool}"
    xmp:Rating="${rating}"
    xmpMM:InstanceID="${escaped(instance)}">
${properties.map((line) => `   ${line}\n`).join('')}  </rdf:Description>
 </rdf:RDF>
</x:xmpmeta>
<?xpacket end="w"?>
`;
}

function simple(name: string, text: string): string[] {
  return isSaid(text) ? [`<${name}>${escaped(text)}</${name}>`] : [];
}

/** Language alternative (ISO 16684-1, 7.9.2.3): ours are said in no language in particular. */
function alternative(name: string, text: string): string[] {
  return isSaid(text)
    ? [`<${name}><rdf:Alt><rdf:li xml:lang="x-default">${escaped(text)}</rdf:li></rdf:Alt></${name}>`]
    : [];
}

function bag(name: string, texts: readonly string[]): string[] {
  const said = [...new Set(texts)].filter(isSaid);
  if (said.length === 0) return [];
  const items = said.map((text) => `<rdf:li>${escaped(text)}</rdf:li>`);
  return [`<${name}><rdf:Bag>${items.join('')}</rdf:Bag></${name}>`];
}

function isSaid(text: string): boolean {
  return text.trim() !== '';
}

const entities: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** XML 1.0 (fifth edition) 2.2 and 2.4: what may not stand in a document at all is left out, markup is escaped. */
function escaped(text: string): string {
  return text
    .replace(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '')
    .replace(/[&<>"]/g, (mark) => entities[mark] ?? mark)
    .replaceAll('\r', '&#xD;');
}
