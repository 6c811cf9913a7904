// A word of a grammar in, the word as it is said out.

/** The word without its role mark ("one~p"). */
export function plainWord(word: string): string {
  const mark = word.indexOf("~");
  return mark < 0 ? word : word.slice(0, mark);
}
