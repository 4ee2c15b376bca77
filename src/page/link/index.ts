/** link: the page's calls and its ear on the station's events. Everything that comes in is parsed here. */
export { firstViewAddress, patchCamera, patchMark, pictureAddress } from './calls.ts';
export { openStationLink } from './station-link.ts';
