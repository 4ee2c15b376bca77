import { cameraMake, cameraModel, lensModel } from './camera-model.ts';
import { type Capture, exifDateTime, exifOffset, exifSubSeconds } from './capture.ts';

/**
 * The sidecar of one frame: XMP (ISO 16684-1) in the properties of XMP basic and of Exif in XMP (CIPA DC-010). All
 * values are the camera's own, so nothing needs escaping.
 */
export function writeXmpSidecar(capture: Capture): Uint8Array<ArrayBuffer> {
  const { body, orientation, shutter } = capture;
  const [date = '', time = ''] = exifDateTime(shutter).split(' ');
  const moment = `${date.replaceAll(':', '-')}T${time}.${exifSubSeconds(shutter)}${exifOffset(shutter)}`;
  const text = `<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
 <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
  <rdf:Description rdf:about=""
    xmlns:xmp="http://ns.adobe.com/xap/1.0/"
    xmlns:tiff="http://ns.adobe.com/tiff/1.0/"
    xmlns:exif="http://ns.adobe.com/exif/1.0/"
    xmlns:exifEX="http://cipa.jp/exif/1.0/"
    xmp:CreatorTool="Setside stand-in"
    xmp:CreateDate="${moment}"
    xmp:Rating="0"
    tiff:Make="${cameraMake}"
    tiff:Model="${cameraModel}"
    tiff:Orientation="${orientation}"
    exif:DateTimeOriginal="${moment}"
    exifEX:BodySerialNumber="${body.serial}"
    exifEX:LensModel="${lensModel}"/>
 </rdf:RDF>
</x:xmpmeta>
<?xpacket end="w"?>
`;
  return new TextEncoder().encode(text);
}
