/** Job files and logs that a case is opened with, and as long as file systems let their names be. */
export const MOST_FILES = 10;
export const LONGEST_FILE_NAME = 255;
