"""What is said of devices that use the pages over the network."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "device_name": (
        "Give the device a name of at most one letter.",
        "Give the device a name of at most {count} letters.",
    ),
    "device_name_taken": (
        "A device called {name} is paired already. Revoke it first, or use another name."
    ),
    "no_such_device": "No device is called {name}; there is {known}.",
    "role_from_list": "Choose what the device may do from the list.",
    "no_devices": "No device is paired yet.",
    "offer_over": (
        "This offer to pair was used already or is over. Ask for a new one on the computer that "
        "holds the stash, under Devices."
    ),
    "device_unknown": (
        "This device is not paired with the stash. On the computer that holds it, open Devices, "
        "and scan the code that it shows."
    ),
    "role_too_small": "This device may not do that: on the computer that holds the stash, open "
                      "Devices, and pair it anew with another role.",
    "only_on_the_computer": (
        "This can only be done on the computer that holds the stash, not over the network."
    ),
    "writing_needs_https": (
        "Over a plain connection the stash can only be looked at, since anybody on the network "
        "could listen. Open the secure address instead: three steps say how."
    ),
    "too_many_requests": "Too much was asked at once. Please wait a minute, then try again.",
}
