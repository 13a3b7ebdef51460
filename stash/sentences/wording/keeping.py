"""What is said of the file that holds the record, of its copies, and of the way back from them."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "folder_unwritable": (
        "The data folder {path} cannot be written ({reason}). Choose another with --data, or "
        "change who may write there."
    ),
    "record_missing": (
        "The record {path} is missing or empty, though there are photographs or copies of it. "
        "“lengthwise record repair” brings back the newest good copy; nothing was changed."
    ),
    "record_damaged": (
        "The record is damaged ({reason}), and nothing was recorded just now. “lengthwise record "
        "repair” brings back the newest good copy and keeps what lies there."
    ),
    "record_unsound": (
        "The record is not sound, and nothing was recorded just now. {because} “lengthwise record "
        "repair” puts right what can be put right."
    ),
    "disk_full": (
        "The disk is full or cannot be written ({reason}), so nothing was recorded. What is on "
        "record can still be read. Make room, then try again."
    ),
    "record_busy": (
        "Somebody else has been writing for too long ({reason}), so nothing was recorded. Please "
        "try again in a moment."
    ),
    "record_read_only": (
        "The record can only be read here ({reason}), so nothing was recorded. Change who may "
        "write in its folder, or choose another with --data."
    ),
    "record_unusable": (
        "The record cannot be used ({reason}), and nothing was recorded. “lengthwise record check” "
        "says whether it is sound."
    ),
    "store_too_new": (
        "This stash was written by a newer version of Lengthwise ({step}). Please update "
        "Lengthwise; nothing was changed."
    ),
    "not_changed_over": "The stash could not be changed over; it is as it was before.",
    "form_recorded_before": (
        "This form was already recorded with other content, as entry {entry} of the history, so "
        "nothing more was recorded. Open the page anew and enter it again."
    ),
    "no_such_entry": "There is no entry {entry} in the ledger.",
    "failed_unrecorded": (
        "Something went wrong here, and nothing was recorded. Please go back and try again."
    ),
    "failed_recorded": (
        "Something went wrong here, but before that one entry was recorded, number {entry}: look "
        "at the history before you enter it again.",
        "Something went wrong here, but before that {count} entries were recorded, the last of "
        "them number {entry}: look at the history before you enter it again.",
    ),
    "failed_unknown": (
        "Something went wrong here, and the record cannot be asked what was recorded. Look at the "
        "history before you enter it again."
    ),
    "person_there": (
        "{name} is on record already, and was left as it is. Open that page to change the "
        "measurements, or use another name."
    ),
    "name_without_letters": "A name needs at least one letter or number.",
    "cannot_be_written": "{path} cannot be written ({reason}).",
    "cannot_be_read": "{path} cannot be read ({reason}).",
    "photo_unwritable": (
        "The photograph could not be kept in {path} ({reason}), and nothing was recorded."
    ),
    "no_such_file": "There is no file {path}.",
    "no_such_folder": "There is no folder {path}.",
    "file_exists": (
        "There is a file {path} already, and it was left as it is. Choose another name, or say "
        "--replace."
    ),
    "inside_data_folder": (
        "{path} lies in the data folder, where only the record itself is kept. Choose another "
        "folder."
    ),
    "is_a_folder": "{path} is a folder. Say the name of a file.",
    "not_utf8": "“{typed}” is not text that can be read (UTF-8); type it again.",
    "name_wanted": "Say which file: its name is empty.",
    "name_too_long": "The name of a file is too long: use at most 200 letters.",
    "backup_damaged": (
        "{file} is not a whole backup, nor a copy of a record; nothing was taken from it."
    ),
    "backup_unsound": "{file} cannot be brought back, and nothing was changed. {because}",
    "backup_too_new": (
        "{file} was written by a newer version of Lengthwise. Please update Lengthwise; nothing "
        "was changed."
    ),
    "unpacks_too_large": (
        "{file} claims to unpack to {size_mb} MB, far more than a backup of its size can hold; "
        "nothing was taken from it."
    ),
    "record_here": (
        "There is already a record in {path}, and it was left as it is. Restore into an empty "
        "folder (choose it with --data), or say --replace: the present one is then put aside."
    ),
    "restore_running": (
        "A record is being brought back into {path} at this moment. Wait until that has ended."
    ),
    "restore_disk": (
        "The disk could not take the record ({reason}). Nothing in {path} was changed, and the "
        "backup is sound as far as it was read: make room and run it again."
    ),
    "disk_too_small": (
        "There is too little room for this record: it needs about {needed_mb} MB and {free_mb} MB "
        "are free at {path}. Nothing was changed; make room and run it again."
    ),
    "restore_waits": (
        "The record is ready but could not be put in its place in {path} ({reason}). Close "
        "Lengthwise everywhere and open it again: it is carried through then."
    ),
    "no_good_copy": (
        "There is no good copy of the record in {path}. If you have a backup elsewhere, bring it "
        "back with “lengthwise record restore FILE --replace”."
    ),
    "second_place_inside": (
        "{path} lies in the data folder itself. Name a folder on another disk for the second "
        "copies."
    ),
    "second_place_lost": (
        "The second place for copies, {path}, cannot be reached or written ({reason}). The copies "
        "in the data folder are made all the same."
    ),
    "event_altered": "Entry {first} of the ledger was altered or cannot be read.",
    "events_missing": "The entries {first} to {last} of the ledger are missing.",
    "events_do_not_follow": "The entries of the ledger do not follow from one another.",
    "file_damaged": "The file of the record is damaged: {reason}.",
    "tables_unreadable": "The tables beside the ledger cannot be read.",
    "table_disagrees": "What is shown of {subject} does not agree with the ledger.",
    "touched_disagrees": "It is not on record which things entry {event} is about.",
    "piece_photo_missing": "The photograph {photo} under a traced piece is missing.",
    "piece_photo_damaged": "The photograph {photo} under a traced piece is damaged.",
    "photo_missing": "The photograph {photo} of {code} is missing.",
    "photo_damaged": "The photograph {photo} of {code} is damaged.",
}
