import sharp from 'sharp';

/** What makes one invented picture differ from the next. */
export interface StillLife {
  /** 0 to 1: where the pot stands. */
  readonly place: number;
  /** Hue of the glaze, degrees. */
  readonly hue: number;
  /** 0 to 1: how much light there is. */
  readonly light: number;
}

/** A pot and a bowl on a paper sweep, drawn from shapes: nobody's photograph. JPEG, sRGB. */
export async function stillLifeJpeg(
  life: StillLife,
  width: number,
  height: number,
  quality = 88,
): Promise<Buffer> {
  return sharp(Buffer.from(drawing(life)))
    .resize(width, height, { fit: 'fill' })
    .jpeg({ quality, chromaSubsampling: '4:4:4' })
    .withIccProfile('srgb')
    .toBuffer();
}

/** Drawn on a field of 1500 by 1000. */
function drawing({ place, hue, light }: StillLife): string {
  const level = (value: number): number => Math.round(value * light);
  const grey = (value: number): string => `rgb(${level(value)},${level(value)},${level(value - 4)})`;
  const glaze = (lightness: number): string => `hsl(${hue},34%,${Math.round(lightness * light)}%)`;
  const x = 380 + place * 420;
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1500 1000" preserveAspectRatio="none" width="1500" height="1000">
    <defs>
      <linearGradient id="sweep" x1="0" y1="0" x2="0" y2="1">
        <stop offset="0" stop-color="${grey(176)}"/><stop offset="0.55" stop-color="${grey(228)}"/>
        <stop offset="0.72" stop-color="${grey(240)}"/><stop offset="1" stop-color="${grey(206)}"/>
      </linearGradient>
      <linearGradient id="pot" x1="0" y1="0" x2="1" y2="0">
        <stop offset="0" stop-color="${glaze(74)}"/><stop offset="0.35" stop-color="${glaze(58)}"/><stop offset="1" stop-color="${glaze(24)}"/>
      </linearGradient>
      <linearGradient id="bowl" x1="0" y1="0" x2="1" y2="0">
        <stop offset="0" stop-color="${grey(236)}"/><stop offset="0.5" stop-color="${grey(208)}"/><stop offset="1" stop-color="${grey(118)}"/>
      </linearGradient>
      <radialGradient id="shade"><stop offset="0" stop-color="#000" stop-opacity="0.5"/><stop offset="1" stop-color="#000" stop-opacity="0"/></radialGradient>
    </defs>
    <rect width="1500" height="1000" fill="url(#sweep)"/>
    <ellipse cx="${x + 170}" cy="792" rx="330" ry="46" fill="url(#shade)"/>
    <path d="M${x - 60} 300 C${x - 230} 430 ${x - 190} 720 ${x - 96} 790 L${x + 96} 790 C${x + 190} 720 ${x + 230} 430 ${x + 60} 300 L${x + 74} 236 L${x - 74} 236 Z" fill="url(#pot)"/>
    <ellipse cx="${x}" cy="238" rx="75" ry="17" fill="${glaze(15)}"/>
    <ellipse cx="${x + 500}" cy="818" rx="250" ry="34" fill="url(#shade)"/>
    <path d="M${x + 230} 640 C${x + 250} 760 ${x + 330} 815 ${x + 410} 815 C${x + 490} 815 ${x + 570} 760 ${x + 590} 640 Z" fill="url(#bowl)"/>
    <ellipse cx="${x + 410}" cy="640" rx="180" ry="34" fill="${grey(142)}"/>
  </svg>`;
}
