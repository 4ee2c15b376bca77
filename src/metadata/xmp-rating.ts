import { type Mark, markToXmpRating } from '../facts/index.ts';

/**
 * The text of an XMP sidecar that says how a frame is marked, and nothing else (ISO 16684-1:2019: packet wrapper in 7.3,
 * RDF form in 7.4, `xmp:Rating` in 8.4). `none` is said as 0: unrated.
 */
export function writeXmpRating(mark: Mark): string {
  return `<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
 <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
  <rdf:Description rdf:about="" xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmp:Rating="${markToXmpRating[mark]}"/>
 </rdf:RDF>
</x:xmpmeta>
<?xpacket end="w"?>
`;
}
