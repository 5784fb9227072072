/** The value of rank `rank` (0 = smallest) among the first `count` of `values`, which are reordered. Quickselect (Hoare 1961). */
export const smallest = (values: Float64Array, count: number, rank: number): number => {
  let low = 0;
  let high = count - 1;
  while (low < high) {
    const pivot = values[(low + high) >> 1] ?? 0;
    let left = low;
    let right = high;
    while (left <= right) {
      while ((values[left] ?? 0) < pivot) left++;
      while ((values[right] ?? 0) > pivot) right--;
      if (left > right) break;
      const swap = values[left] ?? 0;
      values[left++] = values[right] ?? 0;
      values[right--] = swap;
    }
    if (rank <= right) high = right;
    else if (rank >= left) low = left;
    else break;
  }
  return values[rank] ?? 0;
};
