"""The pages, one file each; `boxwright.web.contents` says where each lives."""
