/** link: the page's calls and its ear on the station's events. Everything that comes in is parsed here. */
export {
  addCamera,
  basePictureAddress,
  fetchDiary,
  firstViewAddress,
  letGoOf,
  patchCamera,
  patchMark,
  pictureAddress,
  regionAddress,
} from './calls.ts';
export { openStationLink } from './station-link.ts';
