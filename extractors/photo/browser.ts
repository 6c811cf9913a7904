// The door to photos in the browser: card reading and focus on live camera frames. No Node module is reached from here.
export { type CardSeen, cardsIn, prepareCardReader, type Rgba } from "./card-reader.ts";
export { clippingOf, focusOf, type Grey, greyOfRgba, MEASURE_SIZE } from "./measures.ts";
export { steepen } from "./steepen.ts";
